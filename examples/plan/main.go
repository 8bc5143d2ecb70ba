// Command plan turns a schedule of terminal units and a catalogue of valves and
// actuators into a setting sheet. Without files it runs on an invented building
// that is embedded in it.
package main

import (
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/indexrun/indexrun/hydronics/schedule"
)

//go:embed data
var demo embed.FS

// options are the command line.
type options struct {
	schedule  string
	catalogue string
	format    string
	out       string
}

func main() {
	var o options
	flag.StringVar(&o.schedule, "schedule", "", "CSV file of terminal units; empty: the embedded demonstration")
	flag.StringVar(&o.catalogue, "catalogue", "", "JSON file of valves and actuators; empty: the embedded demonstration")
	flag.StringVar(&o.format, "format", "text", "text, csv or json")
	flag.StringVar(&o.out, "out", "", "file to write; empty: standard output")
	flag.Parse()
	if err := run(o, flag.Args(), os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "plan:", err)
		os.Exit(1)
	}
}

func run(o options, rest []string, stdout io.Writer) error {
	if len(rest) > 0 {
		return fmt.Errorf("got %q, want files named by -schedule and -catalogue", rest[0])
	}
	write, known := map[string]func(*schedule.Plan, io.Writer) error{
		"text": (*schedule.Plan).WriteText, "csv": (*schedule.Plan).WriteCSV, "json": (*schedule.Plan).WriteJSON,
	}[o.format]
	if !known {
		return fmt.Errorf("-format: got %q, want text, csv or json", o.format)
	}
	plan, err := load(o)
	if err != nil {
		return err
	}
	if o.out == "" {
		return write(plan, stdout)
	}
	return writeWhole(o.out, func(w io.Writer) error { return write(plan, w) })
}

func load(o options) (*schedule.Plan, error) {
	rows, rowsErr := read(o.schedule, "data/schedule.csv", schedule.ReadCSV)
	catalogue, catalogueErr := read(o.catalogue, "data/catalogue.json", schedule.ReadCatalogue)
	if err := errors.Join(rowsErr, catalogueErr); err != nil {
		return nil, err
	}
	return schedule.Select(rows, catalogue)
}

// read parses the named file, or the embedded one if there is no name; an error
// says which file it is about.
func read[T any](name, embedded string, parse func(io.Reader) (T, error)) (T, error) {
	var none T
	file, place, err := open(name, embedded)
	if err != nil {
		return none, err
	}
	defer file.Close()
	value, err := parse(file)
	if err != nil {
		return none, fmt.Errorf("%s:\n%w", place, err)
	}
	return value, nil
}

func open(name, embedded string) (file io.ReadCloser, place string, err error) {
	if name == "" {
		file, err = demo.Open(embedded)
		return file, embedded + " (embedded)", err
	}
	if place, err = filepath.Abs(name); err != nil {
		return nil, "", err
	}
	file, err = os.Open(place)
	return file, place, err
}

// writeWhole writes a file beside the named one and moves it there when it is
// complete, so that no half-written file is left. A link stays one, and what is no
// file, such as a pipe, is written to as it is.
func writeWhole(name string, write func(io.Writer) error) error {
	mode := fs.FileMode(0o644)
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target
		info, err := os.Stat(name)
		if err != nil {
			return err
		}
		if mode = info.Mode().Perm(); !info.Mode().IsRegular() {
			return writeInto(name, write)
		}
	}
	file, err := os.CreateTemp(filepath.Dir(name), ".plan-*")
	if err != nil {
		return &fs.PathError{Op: "write", Path: name, Err: errors.Unwrap(err)} // not by the temporary name
	}
	defer os.Remove(file.Name())
	if err := errors.Join(write(file), file.Chmod(mode), file.Close()); err != nil {
		return err
	}
	return os.Rename(file.Name(), name)
}

func writeInto(name string, write func(io.Writer) error) error {
	file, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(file), file.Close())
}
