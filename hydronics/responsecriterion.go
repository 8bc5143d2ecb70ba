package hydronics

import "github.com/indexrun/indexrun/internal/words"

// Criterion is what [RankPairings] ranks by.
type Criterion uint8

const (
	// ByDeviation ranks by [Linearity.Deviation]: how well the signal tells the load.
	// It sees the whole signal, the jump at the closed end included.
	ByDeviation Criterion = iota
	// ByGainRatio ranks by [Linearity.GainRatio]: how evenly a loop controls where it
	// controls at all. It does not see what is below the least load, so that the best
	// may be one that controls little: look at the least load too.
	ByGainRatio
)

var criterionWords = words.List{Package: packageName, Field: "Criterion", Words: []string{"by-deviation", "by-gain-ratio"}}

// String returns the word of c, such as "by-deviation".
func (c Criterion) String() string { return criterionWords.Text(uint8(c)) }

// MarshalText returns the word of c.
func (c Criterion) MarshalText() ([]byte, error) { return criterionWords.Marshal(uint8(c)) }

// UnmarshalText reads the word of a criterion.
func (c *Criterion) UnmarshalText(text []byte) error { return words.Into(&criterionWords, text, c) }
