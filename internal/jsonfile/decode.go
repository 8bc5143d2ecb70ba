package jsonfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Decode reads data into target, a pointer to a struct whose fields carry json
// tags. A field tagged `file:"required"` must be there. Strings go to
// UnmarshalText where a type has it.
// Members of other names, names that stand twice and values of the wrong kind
// are problems; target is usable only if there are none.
func Decode(data []byte, target any) []Problem {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return []Problem{{Line: 1, Column: 1, Value: "bytes that are not UTF-8", Want: "a JSON file in UTF-8"}}
	}
	root, problem := parse(data)
	if problem != nil {
		return []Problem{*problem}
	}
	d := decoder{data: data}
	d.value(root, "", reflect.ValueOf(target).Elem())
	return d.problems
}

// decoder collects problems.
type decoder struct {
	data     []byte
	problems []Problem
}

var textType = reflect.TypeFor[encoding.TextUnmarshaler]()

func (d *decoder) value(n *node, path string, v reflect.Value) {
	switch {
	case v.Addr().Type().Implements(textType):
		d.text(n, path, v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText)
	case v.Kind() == reflect.String:
		d.text(n, path, func(text []byte) error { v.SetString(string(text)); return nil })
	case v.Kind() == reflect.Float64:
		if x, ok := n.value.(float64); ok {
			v.SetFloat(x)
			return
		}
		d.wrong(n, path, "a number")
	case v.Kind() == reflect.Slice:
		d.slice(n, path, v)
	case v.Kind() == reflect.Struct:
		d.object(n, path, v)
	default:
		panic("jsonfile: cannot decode into " + v.Type().String())
	}
}

func (d *decoder) text(n *node, path string, set func([]byte) error) {
	s, ok := n.value.(string)
	if !ok {
		d.wrong(n, path, "a JSON string; quantities are written with their unit, such as \"40 kPa\"")
		return
	}
	if err := set([]byte(s)); err != nil {
		d.add(n.offset, Problem{Path: path, Value: strconv.Quote(s), Err: err})
	}
}

func (d *decoder) slice(n *node, path string, v reflect.Value) {
	if n.value != json.Delim('[') {
		d.wrong(n, path, "a JSON array")
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		d.value(item, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
	}
}

func (d *decoder) object(n *node, path string, v reflect.Value) {
	if n.value != json.Delim('{') {
		d.wrong(n, path, "a JSON object")
		return
	}
	fields, required := fieldsOf(v.Type())
	seen := map[string]bool{}
	for _, m := range n.members {
		at := joinPath(path, m.name)
		field, known := fields[m.name]
		switch {
		case !known:
			d.add(m.offset, Problem{Path: at, Value: strconv.Quote(m.name), Want: "one of the members " + strings.Join(names(v.Type()), ", ")})
		case seen[m.name]:
			d.add(m.offset, Problem{Path: at, Value: strconv.Quote(m.name), Want: "each member once"})
		default:
			d.value(m.value, at, v.Field(field))
		}
		seen[m.name] = true
	}
	for _, name := range required {
		if !seen[name] {
			d.add(n.offset, Problem{Path: joinPath(path, name), Value: "nothing", Want: "this member: it is required"})
		}
	}
}

func (d *decoder) wrong(n *node, path, want string) {
	d.add(n.offset, Problem{Path: path, Value: excerpt(d.data, n.offset), Want: want})
}

func (d *decoder) add(offset int64, p Problem) {
	p.Line, p.Column = place(d.data, offset)
	d.problems = append(d.problems, p)
}

func joinPath(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// fieldsOf maps the json names of a struct to its field numbers.
func fieldsOf(t reflect.Type) (fields map[string]int, required []string) {
	fields = map[string]int{}
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		fields[name] = i
		if t.Field(i).Tag.Get("file") == "required" {
			required = append(required, name)
		}
	}
	return fields, required
}

func names(t reflect.Type) []string {
	var list []string
	for i := range t.NumField() {
		if name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ","); name != "" && name != "-" {
			list = append(list, name)
		}
	}
	return list
}

// Locate returns the place of the value at a path such as "valves[2].stroke", or
// of the deepest part of the path that is there.
func Locate(data []byte, path string) (line, column int) {
	root, problem := parse(bytes.TrimPrefix(data, []byte("\ufeff")))
	if problem != nil {
		return problem.Line, problem.Column
	}
	n := root
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		next := n.child(step)
		if next == nil {
			break
		}
		n = next
	}
	return place(data, n.offset)
}

// child returns the member or item of that name or number, or nil.
func (n *node) child(step string) *node {
	for _, m := range n.members {
		if m.name == step {
			return m.value
		}
	}
	if i, err := strconv.Atoi(step); err == nil && i >= 0 && i < len(n.items) {
		return n.items[i]
	}
	return nil
}
