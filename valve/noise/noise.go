package noise

import (
	"errors"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// A Regime says which of the standard's equations make the noise. It goes by xF and
// xFz alone: a valve that recovers much pressure (ball, butterfly) may choke, and so
// cavitate, below xFz. [Result.Cavitation] says that.
type Regime uint8

// The regimes of IEC 60534-8-4:2015, clause 5.1 (from memory).
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
	// downstream of the valve. With rising drop it passes a greatest value and falls
	// towards flashing, xF = 1; what is heard does not: see GreatestLevel.
	Level float64
	// GreatestLevel is the greatest Level over all drops up to this one, of the valve
	// as it throttles to hold the flow: same inlet and flow, Kv ∝ 1/√Δp. It is Level
	// where that still rises. Compare it with a limit, so that a worse case is
	// not quieter.
	GreatestLevel float64
	// BeyondGreatest says that a smaller drop is predicted to be louder: the standard's
	// equations are used beyond where they can be trusted, Level is too low, and
	// the bands and peaks with it.
	BeyondGreatest bool
	// Regime is the standard's, by xF and XFz.
	Regime Regime
	// Cavitation is what package sizing says of the case, up to sizing.Choking. A valve that
	// chokes cavitates, even in the regime Turbulent; its noise of cavitation is then
	// missing from the prediction.
	Cavitation sizing.CavitationState
	// Flow that the level belongs to.
	Flow units.Flow
	// XF is Δp/(p1 − pv), and XFz the value of it, at the actual inlet pressure, from
	// which the standard's noise of cavitation is counted. Cavitation itself begins
	// there or where the flow chokes, whichever is less
	// (OnsetPressureDrop of [sizing.Cavitation]).
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
		Flow: c.Flow, XF: cavitation.XF, XFz: cavitation.XFzInlet, Cavitation: cavitation.State,
		RingFrequency: units.Frequency(float64(c.Pipe.Sound) / (math.Pi * float64(c.Pipe.InsideDiameter))),
	}
	s := c.source(operation{c.drop(), c.Kv, r.XFz})
	if r.XF > r.XFz {
		r.Regime = Cavitating
	}
	r.TurbulentPeak, r.CavitationPeak = s.turbulentPeak, s.cavitationPeak
	r.StreamPower, r.SoundPower = s.stream, s.power()
	r.InternalLevel = c.internalLevel(r.SoundPower)
	r.addSpectrum(c, &s)
	r.GreatestLevel = r.Level
	if r.XF > min(r.XFz, c.Case.Valve.FL*c.Case.Valve.FL) {
		r.addGreatest(c, cavitation.XFzInlet/cavitation.XFz)
	}
	return r
}

func (c *Config) drop() units.Pressure { return c.Case.Inlet.Sub(c.Case.Outlet) }
