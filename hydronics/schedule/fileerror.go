package schedule

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/indexrun/indexrun/units"
)

// A FileError is one problem of a schedule or catalogue file and where it
// stands. Line and Column count from 1; Column counts bytes, as Go's own
// parsers do. It unwraps to [units.ErrInvalid].
type FileError struct {
	Line   int
	Column int
	Field  string // the column's or member's name, such as "duty"
	Value  string // what stands there
	Want   string // what was expected
}

// Error returns "line:column: field: got value, want rule".
func (e *FileError) Error() string {
	return fmt.Sprintf("%d:%d: %s: got %s, want %s", e.Line, e.Column, e.Field, e.Value, e.Want)
}

// Unwrap returns [units.ErrInvalid].
func (e *FileError) Unwrap() error { return units.ErrInvalid }

// FileErrors lists every problem of one file in the order of the file; range
// over it to show them one by one.
type FileErrors []*FileError

// shownErrors bounds the text of a long list; the list itself is complete.
const shownErrors = 40

// Error returns one line for each problem, at most forty, and says how many
// more there are.
func (list FileErrors) Error() string {
	var b strings.Builder
	for i, e := range list {
		if i == shownErrors {
			fmt.Fprintf(&b, "\nand %d more", len(list)-shownErrors)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.Error())
	}
	return b.String()
}

// Unwrap returns the problems one by one for errors.Is and errors.As.
func (list FileErrors) Unwrap() []error {
	all := make([]error, len(list))
	for i, e := range list {
		all[i] = e
	}
	return all
}

// inOrder returns the list as an error in the order of the file, nil if it is
// empty.
func (list FileErrors) inOrder() error {
	if len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(a, b *FileError) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return list
}

// position is a place in a file.
type position struct{ line, column int }

// add records one problem.
func (list *FileErrors) add(at position, field, value, want string) {
	*list = append(*list, &FileError{Line: at.line, Column: at.column, Field: field, Value: value, Want: want})
}

// addErr records what a parser or constructor said, keeping its value and rule
// where it names them.
func (list *FileErrors) addErr(at position, field, value string, err error) {
	for _, one := range flatten(err) {
		var fault *units.FieldError
		if errors.As(one, &fault) {
			list.add(at, field, fault.Value, fault.Want)
			continue
		}
		list.add(at, field, value, one.Error())
	}
}

// flatten lists the parts of a joined error, and of errors joined within it.
func flatten(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var list []error
	for _, one := range joined.Unwrap() {
		list = append(list, flatten(one)...)
	}
	return list
}
