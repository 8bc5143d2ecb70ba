package wiring_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/units"
)

// Closed forms for one device of 12 VA on conductors of 0.01 Ω/m. Constant current 0.5 A:
// error/(0.5·0.01), drop/(2·0.5·0.01), 4.8 V of tolerance likewise. Constant power at 19.2 V
// draws 0.625 A. Without a tolerance to speak of, the power itself ends at 600 m.
func TestGreatestLengthInClosedForm(t *testing.T) {
	current := wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent}
	power := wiring.Load{Power: 12 * wiring.VoltAmpere}
	wide := power
	wide.Below = 90 * units.Percent
	for _, tt := range []struct {
		load   wiring.Load
		limit  wiring.Limit
		metres float64
		by     wiring.Bound
	}{
		{current, wiring.Limit{SignalError: 0.2 * units.Volt}, 40, wiring.BySignalError},
		{current, wiring.Limit{SupplyDrop: 1 * units.Volt}, 100, wiring.BySupplyDrop},
		{current, wiring.Limit{SignalError: 0.2 * units.Volt, SupplyDrop: 0.2 * units.Volt}, 20, wiring.BySupplyDrop},
		{current, wiring.Limit{}, 480, wiring.ByTolerance},
		{current, wiring.Limit{SupplyDrop: 9 * units.Volt}, 480, wiring.ByTolerance},
		{power, wiring.Limit{}, 384, wiring.ByTolerance},
		{power, wiring.Limit{SupplyDrop: 2 * units.Volt}, 2 * 22 / 12.0 / 0.02, wiring.BySupplyDrop},
		{wide, wiring.Limit{}, 600, wiring.ByPower},
	} {
		got, err := wiring.GreatestLength(one(7, tt.load), tt.limit)
		require.NoError(t, err)
		assert.InEpsilon(t, tt.metres, got.Length.In(units.Metre), 1e-9, "%+v", tt)
		assert.InEpsilon(t, tt.metres/7, got.Scale, 1e-9)
		assert.Equal(t, tt.by, got.By)
		assert.Zero(t, got.Device)
	}
}

func TestGreatestLengthWithoutALimit(t *testing.T) {
	got, err := wiring.GreatestLength(one(1, wiring.Load{}), wiring.Limit{SignalError: 0.1 * units.Volt})
	require.NoError(t, err)
	assert.True(t, math.IsInf(float64(got.Length), 1))
	assert.Equal(t, wiring.Unbound, got.By)
}

func TestGreatestLengthThatCannotBe(t *testing.T) {
	limit := wiring.Limit{SignalError: 0.1 * units.Volt}
	low := one(1, wiring.Load{Power: 1})
	low.Supply.Voltage = 19 * units.Volt
	loaded := one(1, wiring.Load{})
	loaded.Output, loaded.Devices[0].Input = 1*units.Kilohm, 10*units.Kilohm
	soft := one(1, wiring.Load{Power: 12 * wiring.VoltAmpere})
	soft.Supply.Resistance = 100 * units.Ohm
	high := one(1, wiring.Load{Power: 1})
	high.Supply.Voltage = 30 * units.Volt
	for _, cfg := range []wiring.Config{low, loaded, soft, high} {
		_, err := wiring.GreatestLength(cfg, limit)
		assert.ErrorIs(t, err, wiring.ErrUnreachable)
		_, err = wiring.ChooseConductor(cfg, limit, wiring.IECSizes(wiring.Class2))
		assert.ErrorIs(t, err, wiring.ErrUnreachable)
	}
	for name, call := range map[string]func() (wiring.Longest, error){
		"no length":       func() (wiring.Longest, error) { return wiring.GreatestLength(one(0, wiring.Load{}), limit) },
		"negative length": func() (wiring.Longest, error) { return wiring.GreatestLength(one(-1, wiring.Load{}), limit) },
		"negative error": func() (wiring.Longest, error) {
			return wiring.GreatestLength(one(1, wiring.Load{}), wiring.Limit{SignalError: -1, SupplyDrop: units.Voltage(math.NaN())})
		},
	} {
		_, err := call()
		assert.ErrorIs(t, err, units.ErrInvalid, name)
	}
}

// 28.8 V is the most that 24 V + 20 % allow. A cable that drops the rest of 30 V while the
// loads draw does not make them right, and a wider tolerance of the load does.
func TestSupplyAboveTheTolerance(t *testing.T) {
	load := wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent}
	cfg := one(150, load) // drops 1.5 V
	cfg.Supply.Voltage = 30 * units.Volt
	const want = "wiring: limits cannot be met: supply-tolerance is broken without any cable at device #1, which tolerates 19.2 V … 28.8 V, on a supply of 30 V"
	_, err := wiring.GreatestLength(cfg, wiring.Limit{})
	assert.EqualError(t, err, want)
	_, err = wiring.ChooseConductor(cfg, wiring.Limit{}, wiring.IECSizes(wiring.Class2))
	assert.EqualError(t, err, want)

	cfg.Supply.Voltage = 28.8 * units.Volt
	_, err = wiring.GreatestLength(cfg, wiring.Limit{})
	require.NoError(t, err)

	cfg.Supply.Voltage, cfg.Devices[0].Load.Above = 30*units.Volt, 25*units.Percent
	got, err := wiring.GreatestLength(cfg, wiring.Limit{})
	require.NoError(t, err)
	assert.InEpsilon(t, 10.8/(2*0.5*0.01), got.Length.In(units.Metre), 1e-9)
}

// At the answer every limit is kept, a little beyond it one is broken.
func TestGreatestLengthIsTheGreatest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := drawConfig(t)
		cfg.Output = 0
		limit := wiring.Limit{SignalError: units.Voltage(number(t, "error", 0.05, 0.5)), SupplyDrop: units.Voltage(number(t, "drop", 0.5, 4))}
		got, err := wiring.GreatestLength(cfg, limit)
		if err != nil || got.By == wiring.Unbound {
			t.Skip("no answer")
		}
		worst := func(factor float64) float64 {
			scaled := change(cfg, func(d *wiring.Device) { d.Length *= units.Length(factor) })
			scaled.Tail *= units.Length(factor)
			used := 0.0
			for i, d := range tryChain(t, scaled).All() {
				low := cfg.Supply.Voltage - 19.2*units.Volt
				drop := cfg.Supply.Voltage - d.Supply
				if scaled.Devices[i].Feed != wiring.NoSignal {
					used = max(used, math.Abs(float64(d.Offset/limit.SignalError)))
				}
				used = max(used, float64(drop/limit.SupplyDrop), float64(drop/low))
			}
			return used
		}
		require.LessOrEqual(t, worst(got.Scale), 1.0)
		require.Greater(t, worst(got.Scale*(1+1e-9)), 1.0)
	})
}

// 0.5 A over 100 m of common: 18.1 Ω/km err by 0.905 V, 12.1 by 0.605 V, 7.41 by 0.3705 V.
func TestChooseConductor(t *testing.T) {
	cfg := one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent})
	sizes := wiring.IECSizes(wiring.Class2)
	backwards := []wiring.Conductor{sizes[4], sizes[3], sizes[2], sizes[1], sizes[0]}
	for volts, want := range map[float64]wiring.Conductor{0.4: mm2(2.5), 0.61: mm2(1.5), 0.6: mm2(2.5), 0.91: mm2(1), 2: mm2(0.5)} {
		for _, list := range [][]wiring.Conductor{sizes, backwards} {
			got, err := wiring.ChooseConductor(cfg, wiring.Limit{SignalError: units.Voltage(volts) * units.Volt}, list)
			require.NoError(t, err)
			assert.Equal(t, want, got, "%v V", volts)
		}
	}
	assert.Equal(t, mm2(2.5), backwards[0], "the list is not sorted in place")
	_, err := wiring.ChooseConductor(cfg, wiring.Limit{SignalError: 0.001 * units.Volt}, sizes)
	assert.ErrorIs(t, err, wiring.ErrUnreachable)
	_, err = wiring.ChooseConductor(cfg, wiring.Limit{}, []wiring.Conductor{wiring.AWG(99)})
	assert.ErrorIs(t, err, units.ErrInvalid)
	_, err = wiring.ChooseConductor(cfg, wiring.Limit{SignalError: -1}, sizes)
	assert.ErrorIs(t, err, units.ErrInvalid)
	for _, list := range [][]wiring.Conductor{nil, {}} {
		_, err = wiring.ChooseConductor(cfg, wiring.Limit{SignalError: -1}, list)
		assert.EqualError(t, err, "wiring: SignalError: got -1 V, want a finite value of zero or more\n"+
			"wiring: from: got none, want the conductors to choose among, such as wiring.IECSizes(wiring.Class2)")
		assert.ErrorIs(t, err, units.ErrInvalid)
	}
}
