package wiring

import "github.com/indexrun/indexrun/internal/words"

// Class is a class of conductors by IEC 60228, of plain copper.
type Class uint8

// The classes. Classes 1 (solid) and 2 (stranded) have the same greatest resistances.
const (
	Class2 Class = iota // classes 1 and 2, for fixed wiring; the zero value
	Class5              // flexible
)

var classWords = words.List{Package: packageName, Field: "class", Words: []string{Class2: "class-2", Class5: "class-5"}}

// String returns the word, such as "class-2".
func (c Class) String() string { return classWords.Text(uint8(c)) }

// MarshalText returns the word; a value that is none of the constants is an error.
func (c Class) MarshalText() ([]byte, error) { return classWords.Marshal(uint8(c)) }

// UnmarshalText reads the word.
func (c *Class) UnmarshalText(text []byte) error { return words.Into(&classWords, text, c) }
