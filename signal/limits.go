package signal

// The limits between a measured value, a signal out of range and a failure, as
// shares of the span of the signal that the source sends, counted outwards from
// its ends.
//
// The measured band and the failure limits under a live zero are those of NAMUR
// NE 43 on 4–20 mA: measured 3.8…20.5 mA, failed at or below 3.6 mA and at or
// above 21.0 mA. NE 43 was written for transmitters with a current output; taking
// the same shares for a voltage with a live zero is our rule (no published source).
// It gives what a shunt would: 2–10 V is measured in 1.9…10.25 V and failed at 1.8
// and 10.5 V.
//
// Without a live zero nothing is deliberately sent outside the span, so the
// failure limits only have to catch what no output sends: a reversed pair, a
// supply terminal. 10 % below and 20 % above, −1 V and 12 V on 0–10 V, are our rule
// (no published source).
const (
	measuredBelow = 0.2 / 16
	measuredAbove = 0.5 / 16

	liveFailedBelow = 0.4 / 16
	liveFailedAbove = 1.0 / 16

	trueFailedBelow = 0.10
	trueFailedAbove = 0.20
)

// whole is the signal that the source sends, from low to high, in volts or
// milliamps: the span that the limits refer to.
type whole struct{ low, high float64 }

func (w whole) span() float64 { return w.high - w.low }

// liveZero reports whether a signal of 0 counts as failed.
func (w whole) liveZero() bool { return w.low > 0 && w.low >= liveFailedBelow*w.span() }

// measured returns the limits within which a signal is in range.
func (w whole) measured() (low, high float64) { return w.outwards(measuredBelow, measuredAbove) }

// failed returns the limits at and beyond which a signal is a failure.
func (w whole) failed() (below, above float64) {
	shareBelow, shareAbove := trueFailedBelow, trueFailedAbove
	if w.liveZero() {
		shareBelow, shareAbove = liveFailedBelow, liveFailedAbove
	}
	return w.outwards(shareBelow, shareAbove)
}

func (w whole) outwards(below, above float64) (low, high float64) {
	return w.low - float64(below*w.span()), w.high + float64(above*w.span())
}
