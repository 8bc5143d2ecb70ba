package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func draw[V any](t *rapid.T, name string, values ...V) V {
	return rapid.SampledFrom(values).Draw(t, name)
}

func number(t *rapid.T, name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(t, name)
}

// drawConfig makes a chain of everyday proportions.
func drawConfig(t *rapid.T) wiring.Config {
	cfg := wiring.Config{
		Supply: wiring.Supply{
			Kind: draw(t, "kind", wiring.Alternating, wiring.Direct), Voltage: units.Voltage(number(t, "supply", 22, 28)),
			Resistance: units.Resistance(number(t, "source", 0, 0.5)),
		},
		SupplyEnd:     draw(t, "supply end", wiring.NearEnd, wiring.FarEnd),
		ControllerEnd: draw(t, "controller end", wiring.NearEnd, wiring.FarEnd),
		Common:        draw(t, "common", wiring.SharedCommon, wiring.SeparateCommon),
		Cable: wiring.Cable{
			Conductor: draw(t, "conductor", wiring.IECSizes(wiring.Class2)...),
			Common:    draw(t, "common conductor", wiring.IECSizes(wiring.Class5)...),
		},
		Signal: signal.Volts(number(t, "signal", 0, 10)),
		Output: units.Resistance(number(t, "output", 0, 500)),
		Tail:   units.Length(number(t, "tail", 0, 20)),
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "devices") {
		cfg.Devices = append(cfg.Devices, drawDevice(t, i))
	}
	cfg.Devices[0].Feed, cfg.Devices[0].Signal = wiring.SharedSignal, signal.Signal{}
	return cfg
}

func drawDevice(t *rapid.T, i int) wiring.Device {
	name := func(s string) string { return fmt.Sprint(s, i) }
	d := wiring.Device{
		Length: units.Length(number(t, name("length"), 0, 30)),
		Load: wiring.Load{
			Power:         wiring.ApparentPower(number(t, name("power"), 0, 8)),
			Model:         draw(t, name("model"), wiring.ConstantPower, wiring.ConstantCurrent, wiring.ConstantResistance),
			Rectification: draw(t, name("rectification"), wiring.HalfWave, wiring.FullWave),
		},
		Input: units.Resistance(draw(t, name("input"), 0, 1e4, 1e5)),
		Feed:  draw(t, name("feed"), wiring.SharedSignal, wiring.OwnSignal, wiring.NoSignal),
	}
	if d.Feed == wiring.OwnSignal {
		d.Signal = signal.Volts(number(t, name("own"), 0, 10))
	}
	return d
}

func change(cfg wiring.Config, f func(*wiring.Device)) wiring.Config {
	cfg.Devices = slices.Clone(cfg.Devices)
	for i := range cfg.Devices {
		f(&cfg.Devices[i])
	}
	return cfg
}

func tryChain(t *rapid.T, cfg wiring.Config) wiring.Chain {
	c, err := wiring.New(cfg)
	if errors.Is(err, wiring.ErrOverload) {
		t.Skip("overload")
	}
	require.NoError(t, err)
	return c
}

// What a direct supply gives is what the loads take and the conductors lose. The
// currents of the stretches are added up here from those of the devices.
func TestPowerBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := change(drawConfig(t), func(d *wiring.Device) { d.Input = 0 })
		cfg.Supply.Kind = wiring.Direct
		c := tryChain(t, cfg)
		var spent, total float64
		for _, d := range c.All() {
			spent += float64(d.Supply) * float64(d.Current)
			total += float64(d.Current)
		}
		carried, passed := total, 0.0
		for i, d := range cfg.Devices {
			if cfg.SupplyEnd == wiring.FarEnd {
				carried = passed
			}
			r := cfg.Cable.Conductor.Resistance(d.Length, cfg.Temperature) + cfg.Cable.Common.Resistance(d.Length, cfg.Temperature)
			spent += carried * carried * float64(r)
			here := float64(at(t, c, i).Current)
			passed += here
			carried -= here
		}
		if cfg.SupplyEnd == wiring.FarEnd {
			r := cfg.Cable.Conductor.Resistance(cfg.Tail, cfg.Temperature) + cfg.Cable.Common.Resistance(cfg.Tail, cfg.Temperature)
			spent += total * total * float64(r)
		}
		spent += total * total * float64(cfg.Supply.Resistance)
		require.InDelta(t, float64(c.Total().Power), spent, 1e-11*(1+spent))
	})
}

// With constant currents the network is linear: signals add, and so do the effects of
// loads and of signals.
func TestSuperposition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		both := change(drawConfig(t), func(d *wiring.Device) { d.Load.Model = wiring.ConstantCurrent })
		loads := change(both, func(d *wiring.Device) {
			if d.Feed == wiring.OwnSignal {
				d.Signal = signal.Volts(0)
			}
		})
		loads.Signal = signal.Volts(0)
		signals := change(both, func(d *wiring.Device) { d.Load.Power = 0 })
		b, l, s := tryChain(t, both), tryChain(t, loads), tryChain(t, signals)
		for i := range both.Devices {
			require.InDelta(t, at(t, b, i).Seen.Number(), at(t, l, i).Seen.Number()+at(t, s, i).Seen.Number(), 1e-12)
			require.InDelta(t, float64(at(t, b, i).Shift), float64(at(t, l, i).Shift), 1e-12)
		}
	})
}

// A longer cable leaves less voltage and shifts the commons further, and the loads of
// constant power draw more. Not so with heaters: those at the far end draw less, which
// may help the devices before them behind a soft supply.
func TestMonotoneInLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		short := change(drawConfig(t), func(d *wiring.Device) {
			if d.Load.Model == wiring.ConstantResistance {
				d.Load.Model = wiring.ConstantPower
			}
		})
		factor := units.Length(number(t, "factor", 1, 3))
		long := change(short, func(d *wiring.Device) { d.Length *= factor })
		long.Tail *= factor
		if short.Supply.Kind == wiring.Direct { // the signals' own drop may help the supply by microvolts
			short, long = change(short, idealInput), change(long, idealInput)
		}
		a, b := tryChain(t, short), tryChain(t, long)
		for i := range short.Devices {
			u, v := at(t, a, i), at(t, b, i)
			require.LessOrEqual(t, float64(v.Supply), float64(u.Supply)+1e-12)
			if short.Devices[i].Load.Model == wiring.ConstantPower {
				require.GreaterOrEqual(t, float64(v.Current), float64(u.Current)-1e-12)
			}
		}
		current := change(short, func(d *wiring.Device) { d.Load.Model = wiring.ConstantCurrent })
		currentLong := change(long, func(d *wiring.Device) { d.Load.Model = wiring.ConstantCurrent })
		a, b = tryChain(t, current), tryChain(t, currentLong)
		for i := range short.Devices {
			require.InDelta(t, float64(at(t, a, i).Shift*units.Voltage(factor)), float64(at(t, b, i).Shift), 1e-12)
		}
	})
}

func idealInput(d *wiring.Device) { d.Input = 0 }

// A cable seen from its other end is the same cable.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := drawConfig(t)
		n := len(cfg.Devices)
		mirror := cfg
		mirror.SupplyEnd, mirror.ControllerEnd = 1-cfg.SupplyEnd, 1-cfg.ControllerEnd
		mirror.Devices = make([]wiring.Device, n)
		mirror.Tail = cfg.Devices[0].Length
		for i, d := range cfg.Devices {
			d.Length = cfg.Tail
			if i+1 < n {
				d.Length = cfg.Devices[i+1].Length
			}
			mirror.Devices[n-1-i] = d
		}
		a, b := tryChain(t, cfg), tryChain(t, mirror)
		for i := range n {
			u, v := at(t, a, i), at(t, b, n-1-i)
			require.InDelta(t, float64(u.Supply), float64(v.Supply), 1e-11)
			require.InDelta(t, u.Seen.Number(), v.Seen.Number(), 1e-11)
			require.InDelta(t, float64(u.Ripple), float64(v.Ripple), 1e-11)
		}
	})
}

// A transfer tells what a chain with another signal would say, and its inverse undoes it.
func TestTransferForeseesAnotherSignal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := change(drawConfig(t), func(d *wiring.Device) { d.Load.Model = wiring.ConstantCurrent })
		c := tryChain(t, cfg)
		other := cfg
		other.Signal = signal.Volts(number(t, "other", 0, 10))
		o := tryChain(t, other)
		for i, d := range cfg.Devices {
			line, ok := c.Transfer(i)
			require.Equal(t, d.Feed != wiring.NoSignal, ok)
			if !ok {
				continue
			}
			require.InDelta(t, at(t, c, i).Seen.Number(), line.At(at(t, c, i).Sent).Number(), 1e-12)
			require.InDelta(t, 1, line.Gain(), 0.5)
			x := signal.Volts(number(t, "x", -5, 15))
			require.InDelta(t, x.Number(), line.Inverse(line.At(x)).Number(), 1e-12)
			if d.Feed == wiring.SharedSignal {
				require.InDelta(t, at(t, o, i).Seen.Number(), line.At(other.Signal).Number(), 1e-12)
			}
		}
	})
}

// Whatever is given, the answer is an error or finite.
func TestNeverNaN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := drawConfig(t)
		wild := func(name string) float64 {
			return rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, 1, 1e3, 1e6, 1e300, 5e-324, math.Inf(1), math.NaN()})).Draw(t, name)
		}
		d := &cfg.Devices[rapid.IntRange(0, len(cfg.Devices)-1).Draw(t, "victim")]
		switch rapid.IntRange(0, 7).Draw(t, "field") {
		case 0:
			d.Load.Power = wiring.ApparentPower(wild("power"))
		case 1:
			d.Load.Nominal = units.Voltage(wild("nominal"))
		case 2:
			d.Length = units.Length(wild("length"))
		case 3:
			d.Input = units.Resistance(wild("input"))
		case 4:
			cfg.Output = units.Resistance(wild("output"))
		case 5:
			cfg.Supply.Voltage = units.Voltage(wild("supply"))
		case 6:
			cfg.Supply.Resistance = units.Resistance(wild("source"))
		case 7:
			cfg.Cable.Conductor = wiring.PerLength(units.Resistance(wild("r")), units.Kilometre)
		}
		c, err := wiring.New(cfg)
		if err != nil {
			require.True(t, errors.Is(err, units.ErrInvalid) || errors.Is(err, wiring.ErrOverload), err)
			return
		}
		for _, d := range c.All() {
			for _, x := range []float64{
				float64(d.Supply), float64(d.Margin), float64(d.Current), d.Seen.Number(),
				float64(d.Offset), float64(d.Shift), float64(d.Ripple),
			} {
				require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%+v", d)
			}
			require.Positive(t, float64(d.Supply))
		}
	})
}
