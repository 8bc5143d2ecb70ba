// Package jsonfile decodes a JSON file into Go values and reports every problem
// of the file at once, each with its line and column. encoding/json stops at
// the first problem and gives no place for a value that UnmarshalText refused.
package jsonfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// A Problem is one fault of a file. Line and Column count from 1, the column in
// bytes.
type Problem struct {
	Line, Column int
	Path         string // such as "valves[2].stroke"; empty for the whole file
	Value        string // what stands there
	Err          error  // what a text parser said, or nil
	Want         string // what was expected, where Err is nil
}

// node is a JSON value with its place in the file.
type node struct {
	offset  int64
	value   any // string, float64, bool, nil or the opening json.Delim
	members []member
	items   []*node
}

// member is one name of an object and its value.
type member struct {
	name   string
	offset int64
	value  *node
}

// parse reads the whole of data as one JSON value.
func parse(data []byte) (*node, *Problem) {
	d := &treeReader{json.NewDecoder(bytes.NewReader(data)), data}
	root, err := d.value(0)
	if err == nil {
		if _, tail := d.dec.Token(); tail != io.EOF {
			return nil, d.problem(d.dec.InputOffset(), "nothing after the JSON value")
		}
		return root, nil
	}
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		return nil, d.problem(syntax.Offset-1, "JSON; "+syntax.Error())
	case errors.Is(err, errTooDeep):
		return nil, d.problem(d.dec.InputOffset(), err.Error())
	}
	return nil, d.problem(int64(len(data)), "a whole JSON value; the file ends too early")
}

// treeReader builds nodes from tokens.
type treeReader struct {
	dec  *json.Decoder
	data []byte
}

// deepest bounds nesting: no file of this module needs more.
const deepest = 40

var errTooDeep = fmt.Errorf("at most %d levels of nesting", deepest)

func (r *treeReader) value(depth int) (*node, error) {
	offset := r.start()
	token, err := r.dec.Token()
	if err != nil {
		return nil, err
	}
	if depth > deepest {
		return nil, errTooDeep
	}
	n := &node{offset: offset, value: token}
	switch token {
	case json.Delim('{'):
		err = r.object(n, depth)
	case json.Delim('['):
		err = r.array(n, depth)
	}
	return n, err
}

func (r *treeReader) object(n *node, depth int) error {
	for r.dec.More() {
		offset := r.start()
		name, err := r.dec.Token()
		if err != nil {
			return err
		}
		value, err := r.value(depth + 1)
		if err != nil {
			return err
		}
		n.members = append(n.members, member{name.(string), offset, value})
	}
	_, err := r.dec.Token()
	return err
}

func (r *treeReader) array(n *node, depth int) error {
	for r.dec.More() {
		value, err := r.value(depth + 1)
		if err != nil {
			return err
		}
		n.items = append(n.items, value)
	}
	_, err := r.dec.Token()
	return err
}

// start is the offset of the next value: behind white space and separators.
func (r *treeReader) start() int64 {
	at := r.dec.InputOffset()
	for at < int64(len(r.data)) && bytes.IndexByte([]byte(" \t\r\n,:"), r.data[at]) >= 0 {
		at++
	}
	return at
}

func (r *treeReader) problem(offset int64, want string) *Problem {
	line, column := place(r.data, offset)
	return &Problem{Line: line, Column: column, Value: excerpt(r.data, offset), Want: want}
}

// excerpt shows what stands at an offset: a whole number or word, or the first
// bytes of anything else.
func excerpt(data []byte, offset int64) string {
	rest := data[min(max(offset, 0), int64(len(data))):]
	if len(rest) == 0 {
		return "the end of the file"
	}
	if end := bytes.IndexAny(rest, " \t\r\n,:]}\"[{"); end > 0 {
		return string(rest[:min(end, 40)])
	}
	return fmt.Sprintf("%q", rest[:min(len(rest), 12)])
}

// place turns an offset into line and column.
func place(data []byte, offset int64) (line, column int) {
	before := data[:min(max(offset, 0), int64(len(data)))]
	return 1 + bytes.Count(before, []byte("\n")), len(before) - bytes.LastIndexByte(before, '\n')
}
