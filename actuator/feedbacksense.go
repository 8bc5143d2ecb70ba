package actuator

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

var feedbackSenseWords = words{FeedbackAsSignal: "as-signal", FeedbackExtending: "rises-extending",
	FeedbackRetracting: "rises-retracting"}

// String returns the word, such as "as-signal".
func (f FeedbackSense) String() string { return feedbackSenseWords.text(uint8(f)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (f FeedbackSense) MarshalText() ([]byte, error) {
	return feedbackSenseWords.marshal("FeedbackSense", uint8(f))
}

// UnmarshalText reads the word.
func (f *FeedbackSense) UnmarshalText(text []byte) error {
	i, err := feedbackSenseWords.parse("FeedbackSense", text)
	if err == nil {
		*f = FeedbackSense(i)
	}
	return err
}
