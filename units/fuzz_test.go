package units_test

import (
	"testing"

	"github.com/indexrun/indexrun/units"
)

// What parses is finite, is written without loss and parses again to the same value.

func FuzzParseFlow(f *testing.F) {
	for _, text := range []string{"0.3 l/s", "1.08 m³/h", "-1e-3 US gpm", "1,08 m³/h", "0x1p4 l/s", "NaN l/s", "5 e3 l/s"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		q, err := units.ParseFlow(text)
		if err != nil {
			return
		}
		written, err := q.MarshalText()
		if err != nil {
			t.Fatalf("%q gives %v, which has no text: %v", text, float64(q), err)
		}
		again, err := units.ParseFlow(string(written))
		if err != nil || again != q {
			t.Errorf("%q: %v, written %q, read as %v, %v", text, q, written, again, err)
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, text := range []string{"21 °C", "69.8 F", "294.15K", "−5 °C", "21,5 °C", "1e308 °F", "21"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		temperature, err := units.ParseTemperature(text)
		if err != nil {
			return
		}
		written, err := temperature.MarshalText()
		if err != nil {
			t.Fatalf("%q gives %v, which has no text: %v", text, temperature.Kelvin(), err)
		}
		again, err := units.ParseTemperature(string(written))
		if err != nil || again != temperature {
			t.Errorf("%q: %v, written %q, read as %v, %v", text, temperature, written, again, err)
		}
	})
}
