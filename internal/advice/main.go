// Command advice makes the tables of hydronics/RESPONSE.md: how the heat of
// typical terminals follows their flow, and which shaping and characteristic make
// it follow the signal, at what authority. It is started in the folder of the
// module.
//
//	go run ./internal/advice           # rewrites the tables
//	go run ./internal/advice -check    # fails if they are out of date
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"strings"
)

const page = "hydronics/RESPONSE.md"

func main() {
	log.SetFlags(0)
	log.SetPrefix("advice: ")
	check := flag.Bool("check", false, "compare with the tables in "+page+" instead of writing them")
	flag.Parse()
	if err := update(page, *check); err != nil {
		log.Fatal(err)
	}
}

const (
	opening = "<!-- advice table -->\n"
	closing = "<!-- end of advice table -->"
)

func update(page string, check bool) error { return updateWith(page, typical, check) }

// updateWith puts the tables of some units between the markers of a page, or reports
// that something else is there.
func updateWith(page string, units []unit, check bool) error {
	text, err := os.ReadFile(page)
	if err != nil {
		return err
	}
	before, rest, found := strings.Cut(string(text), opening)
	old, after, closed := strings.Cut(rest, closing)
	if !found || !closed {
		return fmt.Errorf("%s: no lines %q and %q", page, strings.TrimSpace(opening), closing)
	}
	now, err := tables(units)
	switch {
	case err != nil:
		return err
	case now == old:
		return nil
	case check:
		return fmt.Errorf("%s is out of date at %q; run: go run ./internal/advice", page, firstDifference(old, now))
	}
	return os.WriteFile(page, []byte(before+opening+now+closing+after), 0o644)
}

// firstDifference is the first line that should be there and is not.
func firstDifference(got, want string) string {
	lines := strings.Split(got, "\n")
	for i, line := range strings.Split(want, "\n") {
		if i >= len(lines) || lines[i] != line {
			return line
		}
	}
	return "its end"
}
