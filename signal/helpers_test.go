package signal_test

import (
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/signal"
)

// named lists the ranges of the trade with their texts.
var named = []struct {
	text string
	r    signal.Range
	at0  signal.Signal
	at1  signal.Signal
	live bool
}{
	{"0-10 V", signal.Range0To10V(), signal.Volts(0), signal.Volts(10), false},
	{"2-10 V", signal.Range2To10V(), signal.Volts(2), signal.Volts(10), true},
	{"0-5 V", signal.Range0To5V(), signal.Volts(0), signal.Volts(5), false},
	{"5-10 V", signal.Range5To10V(), signal.Volts(5), signal.Volts(10), false},
	{"1-5 V", signal.Range1To5V(), signal.Volts(1), signal.Volts(5), true},
	{"0-20 mA", signal.Range0To20mA(), signal.Milliamps(0), signal.Milliamps(20), false},
	{"4-20 mA", signal.Range4To20mA(), signal.Milliamps(4), signal.Milliamps(20), true},
}

// drawRange makes any range that the constructors allow: named or custom, direct or
// inverse, whole or a window.
func drawRange(t *rapid.T) signal.Range {
	if rapid.Bool().Draw(t, "is named") {
		r := rapid.SampledFrom(named).Draw(t, "named").r
		if rapid.Bool().Draw(t, "inverse") {
			return r.Inverse()
		}
		return r
	}
	of := rapid.SampledFrom([]func(float64) signal.Signal{signal.Volts, signal.Milliamps}).Draw(t, "kind")
	low := rapid.Float64Range(0, 99).Draw(t, "low")
	high := rapid.Float64Range(low+0.11, 100).Draw(t, "high")
	r := mustRange(of(low), of(high))
	if rapid.Bool().Draw(t, "is window") {
		wide := mustRange(of(low-low*rapid.Float64Range(0, 1).Draw(t, "below")), of(high+(100-high)*rapid.Float64Range(0, 1).Draw(t, "above")))
		r = must(r.Within(wide))
	}
	if rapid.Bool().Draw(t, "inverse") {
		return r.Inverse()
	}
	return r
}

// of makes a signal of the kind of a range.
func of(r signal.Range, x float64) signal.Signal {
	if r.Kind() == signal.KindCurrent {
		return signal.Milliamps(x)
	}
	return signal.Volts(x)
}

func mustRange(at0, at1 signal.Signal) signal.Range { return must(signal.NewRange(at0, at1)) }

func must[V any](v V, err error) V {
	if err != nil {
		panic(err)
	}
	return v
}
