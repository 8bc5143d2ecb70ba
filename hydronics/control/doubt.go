package control

import "github.com/indexrun/indexrun/internal/words"

// Doubt is why [DetectHunting] is undecided.
type Doubt uint8

const (
	NoDoubt      Doubt = iota // decided; the zero value
	NoRecord                  // fewer than 16 values, one that is not a finite number, or no step or tolerance above zero
	TooFewCycles              // a swing, but fewer than three cycles of it: look longer
	TooCoarse                 // fewer than eight values to a cycle: sample faster
	TooNoisy                  // noise as large as the swing, or a swing so fast that it looks like noise: sample faster or look longer
	Irregular                 // swings of unequal length or height: a disturbance rather than a limit cycle
	Dying                     // a swing that fell to less than half within the record: look longer
)

var doubtWords = words.List{Package: packageName, Field: "Doubt", Words: []string{
	"no-doubt", "no-record", "too-few-cycles", "too-coarse", "too-noisy", "irregular", "dying",
}}

// String returns the word, such as "too-few-cycles".
func (d Doubt) String() string { return doubtWords.Text(uint8(d)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (d Doubt) MarshalText() ([]byte, error) { return doubtWords.Marshal(uint8(d)) }

// UnmarshalText reads the word.
func (d *Doubt) UnmarshalText(text []byte) error { return words.Into(&doubtWords, text, d) }
