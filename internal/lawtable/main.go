// Command lawtable makes the table of laws in DEVELOPERS.md: which law is
// compared with which source, in how many points, and how far the model is from
// it. It runs the tests of the module, in whose folder it must be started, and
// gathers what their comparisons found.
//
//	go run ./internal/lawtable           # rewrites the table
//	go run ./internal/lawtable -check    # fails if the table is out of date
//	go run ./internal/lawtable -print    # prints a line for each law and leaves the page alone
//
// The page is always about the recorded tables. With -print those of the folder that
// INDEXRUN_REFERENCE names take part: each law must be among them, unless it is declared
// as fixed, and -least is the number of points in which it must have been compared. The fixed ones
// are printed with the reason.
//
//	INDEXRUN_REFERENCE=$dir go run ./internal/lawtable -print -least 10000
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"

	"github.com/indexrun/indexrun/internal/reference"
)

const page = "DEVELOPERS.md"

func main() {
	log.SetFlags(0)
	log.SetPrefix("lawtable: ")
	check := flag.Bool("check", false, "compare with the table in "+page+" instead of writing it")
	lines := flag.Bool("print", false, "print the laws instead of writing them")
	least := flag.Int("least", 0, "with -print, the least number of points of a law in the tables of "+reference.LiveVariable)
	flag.Parse()
	var err error
	if *lines {
		err = printLaws(os.Stdout, *least)
	} else {
		err = update(*check)
	}
	if err != nil {
		log.Fatal(err)
	}
}

// printLaws prints the laws, and what is wrong with them after that.
func printLaws(w io.Writer, least int) error {
	laws, err := gather()
	if err != nil {
		return err
	}
	var short error
	if least > 0 || os.Getenv(reference.LiveVariable) != "" {
		short = checkLive(laws, reference.IsLive, least)
	}
	return errors.Join(writeLines(w, laws), short)
}

func update(check bool) error {
	if err := os.Unsetenv(reference.LiveVariable); err != nil {
		return err
	}
	old, err := os.ReadFile(page)
	if err != nil {
		return err
	}
	doc, err := split(old)
	if err != nil {
		return fmt.Errorf("%s: %w", page, err)
	}
	laws, err := gather()
	if err != nil {
		return err
	}
	if check {
		return compare(doc.table, laws)
	}
	doc.table = markdown(laws)
	return os.WriteFile(page, doc.join(), 0o644)
}

// gather runs the tests and joins their results with the tables.
func gather() ([]law, error) {
	dir, err := os.MkdirTemp("", "lawtable")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if err := runTests(dir); err != nil {
		return nil, err
	}
	results, err := reference.ReadResults(dir)
	if err != nil {
		return nil, err
	}
	var tables []reference.Table
	for _, name := range reference.Names() {
		table, err := reference.Open(name)
		if err != nil {
			return nil, err
		}
		tables = append(tables, table)
	}
	return join(tables, results)
}

func runTests(dir string) error {
	var output bytes.Buffer
	tests := exec.Command("go", "test", "-count=1", "./...")
	tests.Env = append(os.Environ(), reference.ResultsVariable+"="+dir)
	tests.Stdout, tests.Stderr = &output, &output
	if err := tests.Run(); err != nil {
		return fmt.Errorf("%s%v: %w", &output, tests, err)
	}
	return nil
}
