package actuator

import "github.com/indexrun/indexrun/internal/words"

// FeedbackSense says which way the position feedback runs. It reports the stem
// as the actuator counts it, so it cannot see that a valve's stroke is longer
// than the one set.
type FeedbackSense uint8

// The senses of the feedback.
const (
	FeedbackAsSignal   FeedbackSense = iota // rises as the demand rises; the zero value
	FeedbackExtending                       // rises as the stem extends
	FeedbackRetracting                      // rises as the stem retracts
)

var feedbackSenseWords = words.List{Package: packageName, Field: "FeedbackSense", Words: []string{FeedbackAsSignal: "as-signal", FeedbackExtending: "rises-extending",
	FeedbackRetracting: "rises-retracting"}}

// String returns the word, such as "as-signal".
func (f FeedbackSense) String() string { return feedbackSenseWords.Text(uint8(f)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (f FeedbackSense) MarshalText() ([]byte, error) {
	return feedbackSenseWords.Marshal(uint8(f))
}

// UnmarshalText reads the word.
func (f *FeedbackSense) UnmarshalText(text []byte) error {
	return words.Into(&feedbackSenseWords, text, f)
}
