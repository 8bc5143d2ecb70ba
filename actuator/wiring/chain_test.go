package wiring_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Ohm's law by hand: 100 m of 10 Ω/km are 1 Ω there and 1 Ω back. At nominal 24 V every
// model draws 0.5 A; over 2 Ω the constant current gives 23 V, the constant resistance
// of 48 Ω 24·48/50 V, the constant power the greater root of u² − 24u + 24 = 0.
func TestOneDeviceOnADirectSupply(t *testing.T) {
	for _, tt := range []struct {
		model  wiring.LoadModel
		supply float64
	}{
		{wiring.ConstantCurrent, 23},
		{wiring.ConstantResistance, 23.04},
		{wiring.ConstantPower, 12 + math.Sqrt(120)},
	} {
		d := at(t, mustChain(t, one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: tt.model})), 0)
		amperes := (24 - tt.supply) / 2
		assert.InDelta(t, tt.supply, d.Supply.In(units.Volt), 1e-12, tt.model)
		assert.InDelta(t, tt.supply-19.2, d.Margin.In(units.Volt), 1e-12, tt.model)
		assert.InDelta(t, amperes, d.Current.In(units.Ampere), 1e-13, tt.model)
		assert.InDelta(t, amperes, d.Shift.In(units.Volt), 1e-13, "1 Ω of common")
		assert.InDelta(t, 10-amperes, d.Seen.Number(), 1e-13)
		assert.InDelta(t, -amperes, d.Offset.In(units.Volt), 1e-13)
		assert.Zero(t, d.Ripple)
	}
}

// Two devices by hand, 0.5 A each on 100 m and 200 m: the first stretch carries 1 A, the
// second 0.5 A. The output of 1 kΩ sees two inputs of 10 kΩ.
func TestTwoDevicesByHand(t *testing.T) {
	load := wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent}
	cfg := one(100, load)
	cfg.Devices = append(cfg.Devices, wiring.Device{Length: 100 * units.Metre, Load: load})
	cfg.Supply.Resistance = 0.5 * units.Ohm
	c := mustChain(t, cfg)
	assert.InDelta(t, 24-0.5-2, at(t, c, 0).Supply.In(units.Volt), 1e-12)
	assert.InDelta(t, 24-0.5-3, at(t, c, 1).Supply.In(units.Volt), 1e-12)
	assert.InDelta(t, 9, at(t, c, 0).Seen.Number(), 1e-12)
	assert.InDelta(t, 8.5, at(t, c, 1).Seen.Number(), 1e-12)
	total := c.Total()
	assert.InDelta(t, 1, total.Current.In(units.Ampere), 1e-12)
	assert.InDelta(t, 1, total.Direct.In(units.Ampere), 1e-12)
	assert.InDelta(t, 24, total.Power.In(wiring.VoltAmpere), 1e-12)
	assert.InDelta(t, 24, total.Nameplate.In(wiring.VoltAmpere), 1e-12)

	idle := one(0, wiring.Load{})
	idle.Output = 1 * units.Kilohm
	idle.Devices[0].Input = 10 * units.Kilohm
	idle.Devices = append(idle.Devices, idle.Devices[0])
	for i, d := range mustChain(t, idle).All() {
		assert.InDelta(t, 10*5.0/6, d.Seen.Number(), 1e-12, i)
		assert.Zero(t, d.Shift)
	}
}

// The rule of doc.go: who sits at the same end lifts the common, who sits at opposite
// ends lowers it, and which end of the valve's travel is lost follows.
func TestWhichWayTheSignalErrs(t *testing.T) {
	const volts = 0.5 // 1 Ω of common, 0.5 A
	load := wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent}
	for _, tt := range []struct {
		supply, controller wiring.End
		shift              float64
	}{
		{wiring.NearEnd, wiring.NearEnd, volts}, {wiring.FarEnd, wiring.FarEnd, volts},
		{wiring.NearEnd, wiring.FarEnd, -volts}, {wiring.FarEnd, wiring.NearEnd, -volts},
	} {
		cfg := one(0, load)
		cfg.SupplyEnd, cfg.ControllerEnd = tt.supply, tt.controller
		// The signals' device hangs at the controller's end, the load at the other or the same.
		cfg.Devices = []wiring.Device{{Load: load}, {Length: 100 * units.Metre, Load: load}}
		cfg.Devices[0].Load.Power *= bit(tt.supply == wiring.FarEnd)
		cfg.Devices[1].Load.Power *= bit(tt.supply == wiring.NearEnd)
		lifted := 1 // the device that is far from the controller
		if tt.controller == wiring.FarEnd {
			lifted = 0
		}
		c := mustChain(t, cfg)
		d := at(t, c, lifted)
		assert.InDelta(t, tt.shift, d.Shift.In(units.Volt), 1e-12, tt)
		assert.InDelta(t, 10-tt.shift, d.Seen.Number(), 1e-12, tt)

		line := transfer(t, c, lifted)
		opens, closes := line.Limits(signal.Range0To10V(), true), line.Limits(signal.Range0To10V(), false)
		if tt.shift > 0 {
			assert.InDelta(t, 0.95, opens.Open, 1e-12, "never opens fully")
			assert.Zero(t, opens.Closed)
			assert.InDelta(t, 0.05, closes.Closed, 1e-12, "never closes fully")
			assert.InDelta(t, 1, closes.Open, 0)
		} else {
			assert.InDelta(t, 1, opens.Open, 0)
			assert.InDelta(t, 0.05, opens.Closed, 1e-12, "never closes fully")
			assert.InDelta(t, 0.95, closes.Open, 1e-12, "never opens fully")
			assert.Zero(t, closes.Closed)
		}
	}
}

func bit(b bool) wiring.ApparentPower {
	if b {
		return 1
	}
	return 0
}

func TestSeparateCommonIsNotShifted(t *testing.T) {
	cfg := one(100, wiring.Load{Power: 12 * wiring.VoltAmpere})
	cfg.Common = wiring.SeparateCommon
	d := at(t, mustChain(t, cfg), 0)
	assert.Zero(t, d.Shift)
	assert.InDelta(t, 10, d.Seen.Number(), 1e-15)
	assert.Less(t, d.Supply.In(units.Volt), 23.0, "the supply drops all the same")
}

// A common of two cores halves its share; the signal conductors have their own.
func TestConductorsOfTheirOwn(t *testing.T) {
	cfg := one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent})
	cfg.Cable.Common = cfg.Cable.Conductor.Cores(2)
	d := at(t, mustChain(t, cfg), 0)
	assert.InDelta(t, 24-0.5*1.5, d.Supply.In(units.Volt), 1e-12)
	assert.InDelta(t, 0.25, d.Shift.In(units.Volt), 1e-12)

	cfg = one(100, wiring.Load{})
	cfg.Common = wiring.SeparateCommon
	cfg.Cable.Signal = wiring.PerLength(300*units.Ohm, 100*units.Metre)
	cfg.Cable.SignalCommon = wiring.PerLength(700*units.Ohm, 100*units.Metre)
	cfg.Devices[0].Input = 1 * units.Kilohm
	assert.InDelta(t, 5, at(t, mustChain(t, cfg), 0).Seen.Number(), 1e-12)
}

// Half-wave heaters of constant resistance, followed through time: the diodes conduct
// while the supply is positive, each heater has R = Un²/(√2·S), so that it draws S/Un
// effective at Un. Nothing here knows 2/π or √2 as a factor of a current.
func TestHalfWaveLoadsThroughTime(t *testing.T) {
	const steps, metres, perMetre, power = 40000, 50.0, 0.01, 10.0
	r := 24 * 24 / (math.Sqrt2 * power)
	var first, second struct{ meanShift, square1, square2, peak float64 }
	for i := range steps {
		u := max(0, 24*math.Sqrt2*math.Sin(2*math.Pi*(float64(i)+0.5)/steps))
		// Ladder from the far end: r in series with both wires, beside r, and so on.
		wires := 2 * metres * perMetre
		behind := r * (r + wires) / (r + r + wires)
		u1 := u * behind / (behind + wires)
		i2 := u1 / (r + wires)
		i1 := u1 / r
		shift1 := metres * perMetre * (i1 + i2)
		shift2 := shift1 + metres*perMetre*i2
		first.meanShift += shift1 / steps
		second.meanShift += shift2 / steps
		first.square1 += i1 * i1 / steps
		second.square2 += i2 * i2 / steps
		first.peak, second.peak = max(first.peak, shift1), max(second.peak, shift2)
	}
	load := wiring.Load{Power: power * wiring.VoltAmpere, Model: wiring.ConstantResistance, Rectification: wiring.HalfWave}
	cfg := one(metres, load)
	cfg.Supply.Kind = wiring.Alternating
	cfg.Devices = append(cfg.Devices, wiring.Device{Length: metres * units.Metre, Load: load})
	c := mustChain(t, cfg)
	for _, tt := range []struct{ want, got float64 }{
		{first.meanShift, at(t, c, 0).Shift.In(units.Volt)},
		{second.meanShift, at(t, c, 1).Shift.In(units.Volt)},
		{math.Sqrt(first.square1), at(t, c, 0).Current.In(units.Ampere)},
		{math.Sqrt(second.square2), at(t, c, 1).Current.In(units.Ampere)},
		{first.peak, at(t, c, 0).Ripple.In(units.Volt)},
		{second.peak, at(t, c, 1).Ripple.In(units.Volt)},
	} {
		assert.InEpsilon(t, tt.want, tt.got, 1e-7)
	}
	total := c.Total()
	sum := at(t, c, 0).Current + at(t, c, 1).Current
	assert.InEpsilon(t, float64(sum), float64(total.Current), 1e-12, "all half-wave: effective values add")
	assert.InEpsilon(t, 2/math.Pi*float64(sum), float64(total.Direct), 1e-12)
}

// Full-wave loads leave the mean of the signal alone and put a ripple on it: at the
// crest 0.5 A·√2 over 1 Ω, either way.
func TestFullWaveLoadsOnlyRipple(t *testing.T) {
	cfg := one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent, Rectification: wiring.FullWave})
	cfg.Supply.Kind = wiring.Alternating
	c := mustChain(t, cfg)
	d := at(t, c, 0)
	assert.InDelta(t, 10, d.Seen.Number(), 1e-15)
	assert.InDelta(t, 23, d.Supply.In(units.Volt), 1e-12)
	assert.InDelta(t, math.Sqrt2, d.Ripple.In(units.Volt), 1e-12)
	assert.Zero(t, c.Total().Direct)
	assert.InDelta(t, 0.5, c.Total().Current.In(units.Ampere), 1e-12)
}

// One constant power S behind R has the voltage U0/2 + √(U0²/4 − R·S), until R·S passes
// U0²/4: with 12 VA at 600 m.
func TestTheEndOfWhatACableCarries(t *testing.T) {
	load := wiring.Load{Power: 12 * wiring.VoltAmpere}
	for _, metres := range []float64{1, 100, 500, 590, 599.999} {
		want := 12 + math.Sqrt(144-0.02*metres*12)
		assert.InEpsilon(t, want, at(t, mustChain(t, one(metres, load)), 0).Supply.In(units.Volt), 1e-9, "%v m", metres)
	}
	for _, metres := range []float64{600.001, 601, 700, 1e4, 1e6} {
		_, err := wiring.New(one(metres, load))
		assert.ErrorIs(t, err, wiring.ErrOverload, "%v m", metres)
		assert.NotErrorIs(t, err, units.ErrInvalid)
	}
	load.Model = wiring.ConstantCurrent
	_, err := wiring.New(one(2500, load))
	assert.ErrorIs(t, err, wiring.ErrOverload, "0.5 A over 50 Ω leave nothing")
	load.Model = wiring.ConstantResistance
	mustChain(t, one(2500, load))
}

func TestToleranceOfTheSupply(t *testing.T) {
	load := wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent, Below: 10 * units.Percent, Above: 5 * units.Percent}
	assert.InDelta(t, 0.4, at(t, mustChain(t, one(200, load)), 0).Margin.In(units.Volt), 1e-12, "22 V of 21.6 V")
	assert.InDelta(t, -0.6, at(t, mustChain(t, one(300, load)), 0).Margin.In(units.Volt), 1e-12, "21 V of 21.6 V")
	cfg := one(0, load)
	cfg.Supply.Voltage = 26 * units.Volt
	assert.InDelta(t, -0.8, at(t, mustChain(t, cfg), 0).Margin.In(units.Volt), 1e-12, "26 V of 25.2 V")
}

func TestDevicesWithoutSignal(t *testing.T) {
	cfg := one(100, wiring.Load{Power: 12 * wiring.VoltAmpere, Model: wiring.ConstantCurrent})
	cfg.Devices = append(cfg.Devices, wiring.Device{Feed: wiring.OwnSignal, Signal: signal.Volts(3), Input: 50 * units.Kilohm})
	cfg.Devices[0].Feed, cfg.Signal = wiring.NoSignal, signal.Signal{}
	c := mustChain(t, cfg)
	assert.True(t, at(t, c, 0).Seen.IsZero())
	assert.True(t, at(t, c, 0).Sent.IsZero())
	_, ok := c.Transfer(0)
	assert.False(t, ok)
	// 2.5 V behind 2 Ω on 50 kΩ.
	assert.InDelta(t, 2.5*50000/50002, at(t, c, 1).Seen.Number(), 1e-12)
}

func TestNewReportsEveryFault(t *testing.T) {
	nan := math.NaN()
	_, err := wiring.New(wiring.Config{
		Supply:    wiring.Supply{Kind: 7, Voltage: 0, Resistance: -1},
		SupplyEnd: 3, ControllerEnd: 3, Common: 3,
		Temperature: units.Celsius(200), Output: -1, Tail: -1, Signal: signal.Milliamps(4),
		Devices: []wiring.Device{
			{
				Length: -1, Input: 0.5, Signal: signal.Volts(1),
				Load: wiring.Load{Power: -1, Nominal: -24, Below: 1, Above: -1, Model: 9, Rectification: 9},
			},
			{Length: units.Length(nan), Input: units.Resistance(nan), Feed: wiring.OwnSignal, Signal: signal.Volts(nan)},
			{Feed: 9},
		},
	})
	require.ErrorIs(t, err, units.ErrInvalid)
	for _, field := range []string{
		"Supply.Kind", "Supply.Voltage", "Supply.Resistance", "SupplyEnd", "ControllerEnd", "Common", "Cable.Conductor",
		"Temperature", "Output", "Tail", ": Signal", "Devices[0].Length", "Devices[0].Load.Power", "Devices[0].Load.Nominal",
		"Devices[0].Load.Below", "Devices[0].Load.Above", "Devices[0].Load.Model", "Devices[0].Load.Rectification",
		"Devices[0].Input", "Devices[0].Signal", "Devices[1].Length", "Devices[1].Input", "Devices[1].Signal", "Devices[2].Feed",
	} {
		assert.ErrorContains(t, err, field)
	}
	good := one(1, wiring.Load{})
	for field, change := range map[string]func(*wiring.Config){
		"Devices":            func(c *wiring.Config) { c.Devices = nil },
		"got 101":            func(c *wiring.Config) { c.Devices = make([]wiring.Device, 101) },
		": Signal: got none": func(c *wiring.Config) { c.Signal = signal.Signal{} },
		"want none":          func(c *wiring.Config) { c.Devices[0].Feed = wiring.NoSignal },
		"Cable.Common":       func(c *wiring.Config) { c.Cable.Common = wiring.AWG(99) },
		"Cable.Signal:":      func(c *wiring.Config) { c.Cable.Signal = wiring.AWG(99) },
		"Cable.SignalCommon": func(c *wiring.Config) { c.Cable.SignalCommon = wiring.AWG(99) },
	} {
		cfg := good
		cfg.Devices = append([]wiring.Device(nil), good.Devices...)
		change(&cfg)
		_, err := wiring.New(cfg)
		assert.ErrorContains(t, err, field)
	}
}

func TestChainKeepsItsConfig(t *testing.T) {
	cfg := threeDrives()
	c := mustChain(t, cfg)
	cfg.Devices[0].Length *= 2
	assert.InDelta(t, 10, c.Config().Devices[0].Length.In(units.Metre), 0)
	c.Config().Devices[0].Length *= 2
	c.All()[0].Name = "other"
	assert.Equal(t, "V1", at(t, c, 0).Name)
	assert.Empty(t, cmp.Diff(c, mustChain(t, threeDrives())))
	assert.False(t, c.Equal(mustChain(t, cfg)))
	for _, i := range []int{-1, 3} {
		_, ok := c.At(i)
		assert.False(t, ok)
		_, ok = c.Transfer(i)
		assert.False(t, ok)
	}
	assert.Zero(t, wiring.Chain{}.Len())
	assert.Equal(t, "#1", at(t, mustChain(t, one(1, wiring.Load{})), 0).Name)
}

func TestConfigTravelsAsJSON(t *testing.T) {
	cfg := threeDrives()
	cfg.Temperature = units.Celsius(35)
	cfg.Cable.Common = mm2(1.5).Cores(2)
	cfg.Devices[1].Feed, cfg.Devices[1].Signal = wiring.OwnSignal, signal.Volts(4)
	data, err := json.Marshal(cfg)
	require.NoError(t, err)
	for _, word := range []string{`"alternating"`, `"near-end"`, `"shared"`, `"half-wave"`, `"constant-power"`, `"5 VA"`, `"2 × 1.5 mm²"`, `"own-signal"`} {
		assert.Contains(t, string(data), word)
	}
	var back wiring.Config
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Empty(t, cmp.Diff(cfg, back))
}
