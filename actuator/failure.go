package actuator

import "github.com/indexrun/indexrun/internal/words"

// Failure is one of the ways in which a drive loses what it works by. They are
// distinct: a drive may open on one and close on the next.
type Failure uint8

// The failures.
const (
	// OnZeroSignal: the signal is at the lower end of the range: 0 V on 0–10 V, 4 mA
	// on 4–20 mA.
	OnZeroSignal Failure = iota
	// OnOpenWire: the signal wire is cut, the input floats.
	OnOpenWire
	// OnBelowLiveZero: the signal of a range with a live zero has dropped to
	// nothing: 0 mA on 4–20 mA. Not applicable to other ranges.
	OnBelowLiveZero
	// OnPowerLoss: the supply is gone.
	OnPowerLoss
	// OnEndStopNotFound: calibration found no end stop, and the stem stays fully
	// extended. The outcome says what that is on the valve. A valve that the drive is
	// not on goes where its own spring takes it, which is the other way: a
	// push-to-close valve opens, a push-to-open valve closes.
	OnEndStopNotFound
)

var failureWords = words.List{Package: packageName, Field: "Failure", Words: []string{OnZeroSignal: "zero-signal", OnOpenWire: "open-wire",
	OnBelowLiveZero: "below-live-zero", OnPowerLoss: "power-loss", OnEndStopNotFound: "end-stop-not-found"}}

// String returns the word, such as "open-wire".
func (f Failure) String() string { return failureWords.Text(uint8(f)) }

// MarshalText returns the word; a value that is none of the constants is an
// error.
func (f Failure) MarshalText() ([]byte, error) { return failureWords.Marshal(uint8(f)) }

// UnmarshalText reads the word.
func (f *Failure) UnmarshalText(text []byte) error { return words.Into(&failureWords, text, f) }
