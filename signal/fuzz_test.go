package signal_test

import (
	"testing"

	"github.com/indexrun/indexrun/signal"
)

// What parses is written without loss and parses again to the same value.

func FuzzParse(f *testing.F) {
	for _, text := range []string{"6.2 V", "12 mA", "none", "-1e-3 A", "6,2 V", "0x1p4 V", "−.5mV"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := signal.Parse(text)
		if err != nil {
			return
		}
		again, err := signal.Parse(string(must(s.MarshalText())))
		if err != nil || again != s {
			t.Errorf("%q: %v, then %v, %v", text, s, again, err)
		}
	})
}

func FuzzParseRange(f *testing.F) {
	for _, text := range []string{"0-10 V", "4–20 mA", "10…0 V", "6-9 V of 0-10 V", "1e-7-5 V", "-5-5 V", "0 to 10 V"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := signal.ParseRange(text)
		if err != nil {
			return
		}
		again, err := signal.ParseRange(string(must(r.MarshalText())))
		if err != nil || again != r {
			t.Errorf("%q: %v, then %v, %v", text, r, again, err)
		}
		if x := r.Read(r.Encode(0.5)).Demand; x < 0.5-1e-12 || x > 0.5+1e-12 {
			t.Errorf("%q: 0.5 comes back as %v", text, x)
		}
	})
}
