package noise

import (
	"errors"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// A Regime says what makes the noise.
type Regime uint8

// The regimes of IEC 60534-8-4.
const (
	Turbulent  Regime = iota // xF up to xFz: the jet alone
	Cavitating               // xF above xFz: collapsing bubbles as well
)

var regimeWords = words.List{Package: "noise", Field: "Regime", Words: []string{
	Turbulent: "turbulent", Cavitating: "cavitating",
}}

// String returns the regime in words.
func (r Regime) String() string { return regimeWords.Text(uint8(r)) }

// MarshalText is [Regime.String] for regimes that exist.
func (r Regime) MarshalText() ([]byte, error) { return regimeWords.Marshal(uint8(r)) }

// UnmarshalText reads what MarshalText writes.
func (r *Regime) UnmarshalText(text []byte) error { return words.Into(&regimeWords, text, r) }

// A Result is a predicted noise. Levels are sound pressure levels in dB with
// reference to 20 µPa.
type Result struct {
	// Level is LpAe,1m in dB(A): A-weighted, 1 m from the wall of the pipe, 1 m
	// downstream of the valve.
	Level  float64
	Regime Regime
	// Flow that the level belongs to.
	Flow units.Flow
	// XF is Δp/(p1 − pv), and XFz the value of it at which cavitation begins, at
	// the actual inlet pressure (see [sizing.Cavitation]).
	XF, XFz float64

	// StreamPower is Wm, the mechanical power of the jet; SoundPower the share of it, Wa,
	// that becomes sound inside the pipe.
	StreamPower, SoundPower units.Power
	// InternalLevel is Lpi in dB, inside the pipe, over all bands.
	InternalLevel float64
	// TurbulentPeak and CavitationPeak are the peaks of the internal spectrum; the
	// second is zero in turbulent flow. RingFrequency is where the pipe
	// wall lets most through.
	TurbulentPeak, CavitationPeak, RingFrequency units.Frequency
	// Bands is the spectrum.
	Bands [33]Band
}

// Predict returns the noise of a valve with liquid flow, by IEC 60534-8-4:2015. It
// refuses a configuration that is not valid, with all its faults; those of Case and
// Kv are package sizing's.
func Predict(cfg Config) (Result, error) {
	cavitation, err := sizing.CavitationAt(cfg.Kv, cfg.Case)
	if err := errors.Join(cfg.check(), err); err != nil {
		return Result{}, err
	}
	if cfg.Flow == 0 {
		passed, err := sizing.Flow(cfg.Kv, cfg.Case)
		if err != nil {
			return Result{}, err
		}
		cfg.Flow = passed.Flow
	}
	cfg = cfg.withDefaults()
	r := cfg.predict(cavitation)
	if math.IsNaN(r.Level) || math.IsInf(r.Level, 0) {
		return Result{}, &units.FieldError{
			Package: "noise", Field: "Config", Value: fmt.Sprintf("%+v", cfg),
			Want: "quantities whose level is finite as a float64",
		}
	}
	return r, nil
}

// predict works on a configuration that is checked and complete.
func (c *Config) predict(cavitation sizing.Cavitation) Result {
	r := Result{
		Flow: c.Flow, XF: cavitation.XF, XFz: cavitation.XFzInlet,
		RingFrequency: units.Frequency(float64(c.Pipe.Sound) / (math.Pi * float64(c.Pipe.InsideDiameter))),
	}
	j := c.jet()
	turbulent := math.Pow(10, c.EfficiencyExponent) * float64(j.velocity/c.LiquidSound)
	cavitating := 0.0
	r.TurbulentPeak = c.turbulentPeak(j, r.XFz)
	if r.XF > r.XFz {
		r.Regime = Cavitating
		cavitating = turbulent * cavitationGain(r.XF, r.XFz, float64(c.drop()/j.drop))
		r.CavitationPeak = r.TurbulentPeak * units.Frequency(cavitationPeakRatio(r.XF, r.XFz))
	}
	r.StreamPower = c.streamPower(j)
	r.SoundPower = units.Power((turbulent + cavitating) * float64(r.StreamPower))
	r.InternalLevel = c.internalLevel(r.SoundPower)
	r.addSpectrum(c, cavitating/(turbulent+cavitating))
	return r
}

func (c *Config) drop() units.Pressure { return c.Case.Inlet.Sub(c.Case.Outlet) }
