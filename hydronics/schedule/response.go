package schedule

import "github.com/indexrun/indexrun/internal/words"

// Response is the relation of flow to signal that a unit wants.
type Response uint8

// The responses. Equal percentage suits terminals that give most of their heat
// at little flow (water-to-air coils, radiators); linear suits those whose heat
// follows the flow (common practice, no published source). The zero Response is
// equal percentage.
const (
	EqualPercentageResponse Response = iota
	LinearResponse
	lastResponse = LinearResponse
)

var responseWords = words.List{Package: packageName, Field: "response", Words: []string{"equal-percentage", "linear"}}

// String returns the word for the response.
func (r Response) String() string { return responseWords.Text(uint8(r)) }

// MarshalText returns the word for the response.
func (r Response) MarshalText() ([]byte, error) { return responseWords.Marshal(uint8(r)) }

// UnmarshalText reads the word.
func (r *Response) UnmarshalText(text []byte) error { return words.Into(&responseWords, text, r) }
