package hydronics_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// benchUnits has one unit for each kind of terminal, at half authority.
func benchUnits(tb testing.TB) map[string]hydronics.HeatChain {
	radiator, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1200 * units.Watt})
	require.NoError(tb, err)
	floor, err := terminal.NewFloor(terminal.FloorConfig{Conductance: 100 * units.WattPerKelvin, Area: 20 * units.SquareMetre, Design: degrees(40, 35, 20)})
	require.NoError(tb, err)
	cross, err := terminal.NewCoil(terminal.CoilConfig{
		Heat: 12 * units.Kilowatt, Design: degrees(80, 60, 16), LeavingAir: units.Celsius(35), WaterShare: 0.2, Arrangement: terminal.CrossFlow,
	})
	require.NoError(tb, err)
	wet, err := terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 4 * units.Kilowatt, Design: degrees(6, 12, 27), Humidity: 0.5, AirFlow: 0.22 * units.CubicMetrePerSecond, WaterShare: 0.25,
	})
	require.NoError(tb, err)
	all := map[string]hydronics.HeatChain{}
	for name, unit := range map[string]terminal.Terminal{"coil": testCoil(tb), "cross-flow": cross, "wet-coil": wet, "radiator": radiator, "floor": floor} {
		all[name] = newUnit(tb, unitConfig{terminal: unit, authority: 0.5, curve: valve.Linear(50),
			actuator: actuator.Config{Shaping: actuator.ZeroBasedEqualPercentage(50)}})
	}
	return all
}

// benchSignals are in no order that a branch predictor could learn.
func benchSignals() (s [1024]signal.Signal) {
	for i := range s {
		s[i] = signal.Volts(10 * float64(i*389%1024) / 1023)
	}
	return s
}

// BenchmarkHeatChain: 1 µs from signal to heat without an allocation is the budget,
// for Heat and, the wet coil aside, for Respond.
func BenchmarkHeatChain(b *testing.B) {
	signals := benchSignals()
	for name, unit := range benchUnits(b) {
		b.Run("Heat/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				unit.Heat(signals[i%len(signals)])
			}
		})
		b.Run("Respond/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				r := unit.Respond(signals[i%len(signals)])
				_ = r.Heat
			}
		})
	}
}

// BenchmarkSignalForHeat has no budget of its own.
func BenchmarkSignalForHeat(b *testing.B) {
	unit := benchUnits(b)["coil"]
	b.ReportAllocs()
	for b.Loop() {
		_, _ = unit.SignalForHeat(5 * units.Kilowatt)
	}
}

// BenchmarkRankPairings has no budget: it is run at design time.
func BenchmarkRankPairings(b *testing.B) {
	cfg := hydronics.PairingConfig{Terminal: testCoil(b), Authority: 0.5}
	b.ReportAllocs()
	for b.Loop() {
		_, _ = hydronics.RankPairings(cfg)
	}
}

func TestHeatChainDoesNotAllocate(t *testing.T) {
	signals := benchSignals()
	for name, unit := range benchUnits(t) {
		today, err := unit.With(80*units.Kilopascal, terminal.Conditions{Supply: unit.Conditions().Supply.Add(-0.5 * units.Kelvin)})
		require.NoError(t, err)
		for _, h := range []hydronics.HeatChain{unit, today} {
			i, sink := 0, 0.0
			require.Zero(t, testing.AllocsPerRun(50, func() {
				i++
				s := signals[i%len(signals)]
				r := h.Respond(s)
				back, _ := h.SignalForHeat(h.FullHeat() / 2)
				again, _ := h.With(70*units.Kilopascal, h.Conditions())
				least, _ := h.LeastLoad(hydronics.Resolution{Signal: 0.01, Stem: 0.01})
				sink += float64(r.Heat+h.Heat(s)+again.FullHeat()+least.Heat) + h.Gain(0.5) + h.HeatShare(0.3) + back.Number()
			}), name)
			require.NotZero(t, sink)
		}
	}
}
