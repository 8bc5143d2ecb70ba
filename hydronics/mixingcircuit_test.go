package hydronics_test

import (
	"errors"
	"math"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// The plants of these tests are invented.

const circuitFlow = 0.5 * units.LitrePerSecond

func dropAt(dp units.Pressure) hydronics.Resistance {
	r, err := hydronics.ResistanceAt(circuitFlow, dp)
	if err != nil {
		panic(err)
	}
	return r
}

// circuitValve drops 10 kPa over either port fully open at circuitFlow.
func circuitValve(tb testing.TB, control, bypass valve.Characteristic) valve.ThreeWay {
	tb.Helper()
	val, err := valve.NewThreeWay(valve.ThreeWayConfig{
		Control: valve.PortConfig{Kvs: valve.CoefficientFor(circuitFlow, 10*units.Kilopascal, valve.ReferenceDensity), Curve: control},
		Bypass:  valve.PortConfig{Curve: bypass},
		Stroke:  15 * units.Millimetre,
	})
	require.NoError(tb, err)
	return val
}

func idealLinear() valve.Characteristic { return valve.Linear(math.Inf(1)) }

func mixingConfig() hydronics.MixingConfig {
	return hydronics.MixingConfig{
		Pump:    40 * units.Kilopascal,
		Primary: dropAt(5 * units.Kilopascal), Bypass: dropAt(5 * units.Kilopascal), Consumer: dropAt(25 * units.Kilopascal),
	}
}

func divertingConfig() hydronics.DivertingConfig {
	return hydronics.DivertingConfig{
		Header:  40 * units.Kilopascal,
		Primary: dropAt(5 * units.Kilopascal), Bypass: dropAt(25 * units.Kilopascal), Consumer: dropAt(25 * units.Kilopascal),
	}
}

func injectionConfig() hydronics.InjectionConfig {
	return hydronics.InjectionConfig{
		Header: 30 * units.Kilopascal, Pump: 25 * units.Kilopascal,
		Primary: dropAt(15 * units.Kilopascal), Injection: dropAt(5 * units.Kilopascal), Bypass: dropAt(5 * units.Kilopascal),
		Consumer: dropAt(25 * units.Kilopascal), Common: dropAt(500 * units.Pascal),
	}
}

func throttledConfig() hydronics.ThrottledInjectionConfig {
	return hydronics.ThrottledInjectionConfig{
		Header: 20 * units.Kilopascal, Pump: 25 * units.Kilopascal,
		Primary: dropAt(10 * units.Kilopascal), Consumer: dropAt(25 * units.Kilopascal), Common: dropAt(500 * units.Pascal),
	}
}

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

// circuits has one of each kind, with the reference liquid in it.
func circuits(tb testing.TB) map[string]hydronics.Circuit {
	return circuitsOf(tb, valve.ReferenceDensity, 0)
}

func circuitsOf(tb testing.TB, rho units.Density, cp units.SpecificHeat) map[string]hydronics.Circuit {
	val := must(circuitValve(tb, valve.EqualPercentage(50), valve.Linear(50)).WithDensity(rho))
	indep := must(valve.NewPressureIndependent(valve.PressureIndependentConfig{
		Settings: []valve.Setting{{Mark: 1, Flow: circuitFlow, MinPressure: 8 * units.Kilopascal}},
		Stroke:   5 * units.Millimetre, Curve: valve.EqualPercentage(50), MaxPressure: 400 * units.Kilopascal, Density: rho,
	}))
	mixing, diverting, injection, throttled := mixingConfig(), divertingConfig(), injectionConfig(), throttledConfig()
	mixing.SpecificHeat, diverting.SpecificHeat, injection.SpecificHeat, throttled.SpecificHeat = cp, cp, cp, cp
	return map[string]hydronics.Circuit{
		"mixing":    must(hydronics.NewMixingCircuit(val, mixing)),
		"diverting": must(hydronics.NewDivertingCircuit(val, diverting)),
		"injection": must(hydronics.NewInjectionCircuit(val, injection)),
		"throttled": must(hydronics.NewThrottledInjectionCircuit(val.Control(), throttled)),
		"regulated": must(hydronics.NewThrottledInjectionCircuit(indep, throttled)),
	}
}

// By hand, for ideal linear ports between headers without pressure. All that is
// in series with the open port drops 5 + 10 + 25 = 40 kPa at the design flow, so
// that it flows at either end. Half way each port drops 4·10 kPa at the design
// flow and has 5 kPa in series, both beside each other a quarter of 45 kPa: 40 =
// (25 + 45/4)·(q/qd)².
func TestMixingCircuitByHand(t *testing.T) {
	c, err := hydronics.NewMixingCircuit(circuitValve(t, idealLinear(), idealLinear()), mixingConfig())
	require.NoError(t, err)
	atHalf := math.Sqrt(40 / (25 + 45.0/4))
	for _, point := range []struct{ h, consumer, primary float64 }{{0, 1, 0}, {1, 1, 1}, {0.5, atHalf, atHalf / 2}} {
		f := c.Flows(point.h)
		assert.InDelta(t, point.consumer, float64(f.Consumer/circuitFlow), 1e-8)
		assert.InDelta(t, point.primary, float64(f.Primary/circuitFlow), 1e-8)
	}
	r := c.ConsumerRange()
	assert.InDelta(t, atHalf, float64(r.Greatest/circuitFlow), 1e-9, "two linear ports pass too much half way")
	assert.InDelta(t, 0.5, r.GreatestAt, 1e-3)
	assert.InDelta(t, 1, float64(r.Least/circuitFlow), 1e-8)
	assert.InDelta(t, atHalf, r.Ratio(), 1e-8)
	a := c.Authority(circuitFlow)
	assert.InDelta(t, 10.0/15, a.Open, 1e-14, "10 kPa of the valve, 5 kPa of the primary circuit")
	assert.InDelta(t, 1, float64(a.OpenFlow/circuitFlow), 1e-8)
	assert.InDelta(t, 10.0/15, a.Design, 1e-8, "the bypass leaves 15 kPa over the shut port")
}

// Under header pressure an open bypass runs backwards, and the consumer gets
// water straight from the source.
func TestMixingCircuitUnderTooMuchHeaderPressure(t *testing.T) {
	cfg := mixingConfig()
	cfg.Header = 60 * units.Kilopascal
	c, err := hydronics.NewMixingCircuit(circuitValve(t, idealLinear(), idealLinear()), cfg)
	require.NoError(t, err)
	s := c.WithHeat(0.9, units.Celsius(70), 10*units.Kilowatt)
	assert.Negative(t, s.Recirculated)
	assert.Greater(t, s.Primary, s.Consumer)
	assert.InDelta(t, 70, s.ConsumerSupply.Celsius(), 1e-12)
	assert.Greater(t, s.PrimaryReturn.Celsius(), s.ConsumerReturn.Celsius())
	cfg.Header = 2 * units.Kilopascal
	c, err = hydronics.NewMixingCircuit(circuitValve(t, idealLinear(), idealLinear()), cfg)
	require.NoError(t, err)
	assert.Positive(t, c.Flows(0.5).Recirculated, "the pump still draws through the bypass")
}

func anyPort(t *rapid.T, label string) valve.PortConfig {
	ratio := rapid.Float64Range(10, 100).Draw(t, label+" ratio")
	return valve.PortConfig{
		Kvs:     units.FlowCoefficient(math.Pow(10, rapid.Float64Range(0, 1.5).Draw(t, label+" lg Kvs"))),
		Leakage: units.Ratio(rapid.SampledFrom([]float64{0, 1e-4, 1e-2}).Draw(t, label+" leakage")),
		Curve: rapid.SampledFrom([]valve.Characteristic{
			valve.Linear(ratio), valve.EqualPercentage(ratio), valve.Parabolic(), valve.QuickOpening(2),
		}).Draw(t, label+" curve"),
	}
}

func anyThreeWay(t *rapid.T) valve.ThreeWay {
	return must(valve.NewThreeWay(valve.ThreeWayConfig{
		Control: anyPort(t, "control"), Bypass: anyPort(t, "bypass"), Stroke: 15 * units.Millimetre,
		Density: units.Density(rapid.Float64Range(950, 1060).Draw(t, "density")),
	}))
}

func anyResistance(t *rapid.T, label string) hydronics.Resistance {
	return dropAt(units.Pressure(math.Pow(10, rapid.Float64Range(2, 5).Draw(t, label)))) // 0.1 … 100 kPa
}

func anyDrive(t *rapid.T, label string) units.Pressure {
	return units.Pressure(rapid.Float64Range(1e3, 1e5).Draw(t, label))
}

func anyTravel(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{0, 1e-3, 0.03, 0.2, 0.5, 0.8, 0.97, 0.999, 1}).Draw(t, "h")
}

// closed checks that the pressures around a loop add up to what drives it.
func closed(t *rapid.T, drive units.Pressure, drops ...units.Pressure) {
	var sum, scale units.Pressure
	for _, dp := range drops {
		sum += dp
		scale = max(scale, dp, -dp)
	}
	// Each way between junctions bends to a laminar law below 1 Pa as a whole, its
	// elements each on their own: so much may be missing.
	assert.InDelta(t, 0, float64(sum-drive), 1e-9*float64(max(scale, drive))+2)
}

// Kirchhoff's laws, element by element, for circuits of any size: the loops close
// and the junctions are balanced.
func TestMixingCircuitObeysKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val, h := anyThreeWay(t), anyTravel(t)
		cfg := hydronics.MixingConfig{
			Header: anyDrive(t, "header") * units.Pressure(rapid.IntRange(0, 1).Draw(t, "headers")), Pump: anyDrive(t, "pump"),
			Primary: anyResistance(t, "primary"), Bypass: anyResistance(t, "bypass"), Consumer: anyResistance(t, "consumer"),
		}
		f := must(hydronics.NewMixingCircuit(val, cfg)).Flows(h)
		assert.InEpsilon(t, float64(f.Consumer), float64(f.Control+f.Bypass), 1e-12)
		assert.InDelta(t, float64(f.Control), float64(f.Primary), 0)
		assert.InDelta(t, float64(f.Bypass), float64(f.Recirculated), 0)
		assert.Positive(t, f.Control)
		assert.InDelta(t, float64(val.Control().Pressure(h, f.Control)), float64(f.ValvePressure), 1e-9)
		closed(t, cfg.Header+cfg.Pump, cfg.Primary.Pressure(f.Control), val.Control().Pressure(h, f.Control), cfg.Consumer.Pressure(f.Consumer))
		closed(t, cfg.Pump, cfg.Bypass.Pressure(f.Bypass), val.Bypass().Pressure(1-h, f.Bypass), cfg.Consumer.Pressure(f.Consumer))
	})
}

// The further the valve opens, the more passes its control port: a network of
// rising laws carries more through an element that conducts better. It passes
// less again only where the shutting bypass fed it, running backwards.
func TestControlFlowRisesWithTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		val := anyThreeWay(t)
		primary, bypass, consumer := anyResistance(t, "primary"), anyResistance(t, "bypass"), anyResistance(t, "consumer")
		header, pump := anyDrive(t, "header"), anyDrive(t, "pump")
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		for name, c := range map[string]hydronics.Circuit{
			"mixing":    must(hydronics.NewMixingCircuit(val, hydronics.MixingConfig{Pump: pump, Primary: primary, Bypass: bypass, Consumer: consumer})),
			"diverting": must(hydronics.NewDivertingCircuit(val, hydronics.DivertingConfig{Header: header, Primary: primary, Bypass: bypass, Consumer: consumer})),
			"injection": must(hydronics.NewInjectionCircuit(val, hydronics.InjectionConfig{
				Header: header, Pump: pump, Primary: primary, Bypass: bypass, Consumer: consumer, Common: bypass,
			})),
			"throttled": must(hydronics.NewThrottledInjectionCircuit(val.Control(), hydronics.ThrottledInjectionConfig{
				Header: header, Pump: pump, Primary: primary, Consumer: consumer, Common: bypass,
			})),
		} {
			low, high := c.Flows(min(a, b)), c.Flows(max(a, b))
			if math.Abs(b-a) > 1e-6 && low.Bypass >= 0 && high.Bypass >= 0 {
				assert.Greater(t, high.Control, low.Control, name)
			}
		}
	})
}

func TestMixingCircuitRefuses(t *testing.T) {
	val := circuitValve(t, valve.Linear(50), valve.Linear(50))
	for field, change := range map[string]func(*hydronics.MixingConfig){
		"Header":       func(c *hydronics.MixingConfig) { c.Header = -1 },
		"Pump":         func(c *hydronics.MixingConfig) { c.Pump = 0 },
		"Primary":      func(c *hydronics.MixingConfig) { c.Primary = -1 },
		"Bypass":       func(c *hydronics.MixingConfig) { c.Bypass = hydronics.Resistance(math.NaN()) },
		"Consumer":     func(c *hydronics.MixingConfig) { c.Consumer = 0 },
		"SpecificHeat": func(c *hydronics.MixingConfig) { c.SpecificHeat = -4000 },
	} {
		cfg := mixingConfig()
		change(&cfg)
		c, err := hydronics.NewMixingCircuit(val, cfg)
		assert.Equal(t, []string{field}, faultyFields(err))
		assert.True(t, c.Equal(hydronics.Circuit{}))
	}
	_, err := hydronics.NewMixingCircuit(valve.ThreeWay{}, hydronics.MixingConfig{})
	assert.Equal(t, []string{"Valve", "Pump", "Consumer"}, faultyFields(err))
}

// faultyFields returns the fields of all faults in an error.
func faultyFields(err error) []string {
	var fields []string
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range joined.Unwrap() {
			fields = append(fields, faultyFields(e)...)
		}
		return fields
	}
	var fault *units.FieldError
	if errors.As(err, &fault) && fault.Package == "hydronics" {
		fields = append(fields, fault.Field)
	}
	return fields
}

const referenceCapacity = float64(valve.ReferenceDensity) * float64(hydronics.ReferenceSpecificHeat)

// balanced checks the energy of every junction and of the consumer, to 1e-9 of
// the greatest flow of energy, and to the digits that a temperature in kelvin has.
func balanced(t assert.TestingT, capacity float64, s hydronics.CircuitState, source units.Temperature) {
	above := func(temperature units.Temperature) float64 { return float64(temperature.Sub(source)) }
	back := max(s.Recirculated, 0)
	past := s.Primary - s.Consumer + back // from the source to its return without the consumer
	supply, consumerReturn, primaryReturn := above(s.ConsumerSupply), above(s.ConsumerReturn), above(s.PrimaryReturn)

	fine := float64(max(s.Consumer, s.Primary)) * (1e-9*math.Abs(consumerReturn) + 1e-12)
	assert.InDelta(t, float64(back)*consumerReturn, float64(s.Consumer)*supply, fine, "junction at the supply")
	assert.InDelta(t, float64(s.Primary-past)*consumerReturn, float64(s.Primary)*primaryReturn, fine, "junction at the return")
	assert.InDelta(t, float64(s.Heat)/capacity, float64(s.Consumer)*(supply-consumerReturn), fine, "consumer")
	assert.InDelta(t, -float64(s.Heat)/capacity, float64(s.Primary)*primaryReturn, fine, "source")
}

// The temperatures of every kind of circuit balance.
func TestCircuitsBalanceEnergy(t *testing.T) {
	all := circuits(t)
	rapid.Check(t, func(t *rapid.T) {
		c := all[rapid.SampledFrom([]string{"mixing", "diverting", "injection", "throttled", "regulated"}).Draw(t, "circuit")]
		h := rapid.Float64Range(0, 1).Draw(t, "h")
		f := c.Flows(h)
		change := rapid.Float64Range(-50, 50).Draw(t, "change of the injected water")
		heat := units.Power(referenceCapacity * change * float64(min(f.Control, f.Consumer)))
		source := units.Celsius(rapid.Float64Range(5, 90).Draw(t, "source"))
		s := c.WithHeat(h, source, heat)
		assert.InDelta(t, float64(heat), float64(s.Heat), 0)
		assert.InDelta(t, -change, float64(s.ConsumerReturn.Sub(source)), 1e-9)
		balanced(t, referenceCapacity, s, source)
	})
}

func TestCircuitWithoutHeat(t *testing.T) {
	for name, c := range circuits(t) {
		for _, h := range []float64{0, 0.5, 1} {
			s := c.WithHeat(h, units.Celsius(60), 0)
			for _, temperature := range []units.Temperature{s.ConsumerSupply, s.ConsumerReturn, s.PrimaryReturn} {
				assert.InDelta(t, 60, temperature.Celsius(), 0, name)
			}
		}
	}
}

// A heat that the injected water cannot carry has no temperatures: 60 kW through the
// leakage of a shut valve would take it below absolute zero.
func TestCircuitWithHeatOutOfReach(t *testing.T) {
	for name, c := range circuits(t) {
		for _, heat := range []units.Power{60 * units.Kilowatt, -60 * units.Kilowatt, 10 * units.Megawatt} {
			for _, h := range []float64{0, 0.01, 0.2, 0.5, 1} {
				s := c.WithHeat(h, units.Celsius(60), heat)
				back := 60 - float64(heat)/(referenceCapacity*float64(min(s.Control, s.Consumer, s.Primary)))
				temperatures := []float64{s.ConsumerReturn.Celsius(), s.ConsumerSupply.Celsius(), s.PrimaryReturn.Celsius()}
				for _, temperature := range temperatures {
					if back >= -100 && back <= 250 {
						assert.True(t, temperature >= -100 && temperature <= 250, "%s at %v: %v", name, h, temperatures)
					} else {
						assert.True(t, math.IsNaN(temperature), "%s at %v: %v", name, h, temperatures)
					}
				}
				assert.Positive(t, s.Consumer+s.Primary, "the flows stay")
				assert.InDelta(t, float64(heat), float64(s.Heat), 0)
			}
		}
	}
}

// Whatever the kind of circuit, a terminal in it gives what it gives by itself at
// the flow and supply temperature that the circuit has for it.
func TestCircuitsWithTerminals(t *testing.T) {
	radiator := must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt}))
	coil := must(terminal.NewCoil(terminal.CoilConfig{
		Heat: 12 * units.Kilowatt, WaterShare: 25 * units.Percent, LeavingAir: units.Celsius(15),
		Design: terminal.Temperatures{Supply: units.Celsius(6), Return: units.Celsius(12), Air: units.Celsius(26)},
	}))
	wet := must(terminal.NewWetCoil(terminal.WetCoilConfig{
		Heat: 12 * units.Kilowatt, Humidity: 50 * units.Percent, WaterShare: 25 * units.Percent, AirFlow: 0.8 * units.CubicMetrePerSecond,
		Design: terminal.Temperatures{Supply: units.Celsius(6), Return: units.Celsius(12), Air: units.Celsius(26)},
	}))
	for name, unit := range map[string]terminal.Terminal{"radiator": radiator, "coil": coil, "wet coil": wet} {
		design := unit.Design()
		sign := 1.0
		if design.Conditions.Supply.Compare(design.Conditions.Air) < 0 {
			sign = -1
		}
		for kind, c := range circuitsOf(t, design.Density, design.SpecificHeat) {
			last := -1.0
			for _, h := range []float64{0, 1e-3, 0.1, 0.3, 0.5, 0.7, 0.9, 1} {
				s := c.WithTerminal(h, unit, terminal.Conditions{})
				want := unit.Output(s.Consumer, terminal.Conditions{Supply: s.ConsumerSupply})
				assert.InDelta(t, sign*float64(want.Heat), float64(s.Heat), 1e-9*float64(design.Heat), "%s, %s at %v", name, kind, h)
				assert.InDelta(t, want.Return.Kelvin(), s.ConsumerReturn.Kelvin(), 1e-9, "%s, %s at %v", name, kind, h)
				balanced(t, float64(design.Density)*float64(design.SpecificHeat), s, design.Conditions.Supply)
				assert.Greater(t, sign*float64(s.Heat), last, "heat rises with the travel: %s, %s at %v", name, kind, h)
				last = sign * float64(s.Heat)
			}
		}
	}
}

func TestCircuitEqual(t *testing.T) {
	again := circuits(t)
	for name, c := range circuits(t) {
		assert.Empty(t, cmp.Diff(c, again[name]))
		assert.False(t, c.Equal(hydronics.Circuit{}))
		for other, d := range again {
			assert.Equal(t, name == other, c.Equal(d), "%s and %s", name, other)
		}
	}
	assert.True(t, hydronics.Circuit{}.Equal(hydronics.Circuit{}))
	val := circuitValve(t, valve.Linear(50), valve.Linear(50))
	cfg := mixingConfig()
	c := must(hydronics.NewMixingCircuit(val, cfg))
	cfg.Pump *= 2
	assert.False(t, c.Equal(must(hydronics.NewMixingCircuit(val, cfg))))
	assert.False(t, c.Equal(must(hydronics.NewMixingCircuit(must(val.WithDensity(1040)), mixingConfig()))))
}

func TestZeroCircuitAndNaN(t *testing.T) {
	all := circuits(t)
	all["zero"] = hydronics.Circuit{}
	for name, c := range all {
		h := math.NaN()
		if name == "zero" {
			h = 0.5
			assert.True(t, math.IsNaN(c.Authority(circuitFlow).Open))
		}
		s := c.WithHeat(h, units.Celsius(60), units.Kilowatt)
		for _, x := range []float64{
			float64(s.Consumer), float64(s.Primary), float64(s.Control), float64(s.Bypass), float64(s.Recirculated), float64(s.ValvePressure),
			s.ConsumerSupply.Kelvin(), s.ConsumerReturn.Kelvin(), s.PrimaryReturn.Kelvin(),
		} {
			assert.True(t, math.IsNaN(x), "%s %+v", name, s)
		}
	}
	for _, s := range []hydronics.CircuitState{
		all["mixing"].WithTerminal(0.5, nil, terminal.Conditions{Supply: units.Celsius(60)}),
		all["mixing"].WithTerminal(0.5, terminal.Coil{}, terminal.Conditions{}),
	} {
		assert.True(t, math.IsNaN(float64(s.Heat)))
		assert.True(t, math.IsNaN(s.ConsumerReturn.Kelvin()))
		assert.Positive(t, s.Consumer)
	}
	s := all["mixing"].WithHeat(0.5, units.Celsius(60), units.Power(math.NaN()))
	assert.True(t, math.IsNaN(s.ConsumerReturn.Kelvin()))
	assert.Positive(t, s.Consumer)
}

// A consumer's pump that is too strong for its common pipe draws the source's
// return backwards through the bypass: the balance of the whole still holds, and
// the consumer gets what the source sends, mixed twice.
func TestInjectionWithTheBypassBackwards(t *testing.T) {
	cfg := injectionConfig()
	cfg.Header, cfg.Pump, cfg.Common = 2*units.Kilopascal, 100*units.Kilopascal, dropAt(40*units.Kilopascal)
	c, err := hydronics.NewInjectionCircuit(circuitValve(t, idealLinear(), idealLinear()), cfg)
	require.NoError(t, err)
	s := c.WithHeat(0.6, units.Celsius(60), 5*units.Kilowatt)
	require.Negative(t, s.Bypass)
	// Of what the control port passes, the source sends its part and the return the rest.
	injected := (float64(s.Primary)*60 - float64(s.Bypass)*s.ConsumerReturn.Celsius()) / float64(s.Control)
	supply := (float64(s.Control)*injected + float64(s.Recirculated)*s.ConsumerReturn.Celsius()) / float64(s.Consumer)
	assert.InDelta(t, supply, s.ConsumerSupply.Celsius(), 1e-9)
	assert.InDelta(t, s.ConsumerReturn.Celsius(), s.PrimaryReturn.Celsius(), 1e-9)
	assert.InEpsilon(t, 5000, referenceCapacity*float64(s.Consumer)*float64(s.ConsumerSupply.Sub(s.ConsumerReturn)), 1e-9)
}

// Travels beyond the ends count as the ends.
func TestCircuitClampsTravel(t *testing.T) {
	for name, c := range circuits(t) {
		assert.Equal(t, c.Flows(0), c.Flows(-1), name)
		assert.Equal(t, c.Flows(1), c.Flows(2), name)
	}
}

// The extremes are those of a fine scan.
func TestFlowRangeAgainstScan(t *testing.T) {
	for name, c := range circuits(t) {
		for what, r := range map[string]hydronics.FlowRange{"consumer": c.ConsumerRange(), "primary": c.PrimaryRange()} {
			flow := func(h float64) units.Flow {
				if what == "primary" {
					return c.Flows(h).Primary
				}
				return c.Flows(h).Consumer
			}
			least, greatest := units.Flow(math.Inf(1)), units.Flow(math.Inf(-1))
			for i := range 5001 {
				q := flow(float64(i) / 5000)
				least, greatest = min(least, q), max(greatest, q)
			}
			assert.InEpsilon(t, float64(greatest), float64(r.Greatest), 1e-5, "%s %s", name, what)
			assert.InDelta(t, float64(least), float64(r.Least), 1e-5*float64(greatest), "%s %s", name, what)
			assert.GreaterOrEqual(t, r.Greatest, greatest*(1-1e-9))
			assert.LessOrEqual(t, r.Least, least+greatest*1e-9)
			assert.InDelta(t, float64(r.Greatest), float64(flow(r.GreatestAt)), 0)
			assert.InDelta(t, float64(r.Least), float64(flow(r.LeastAt)), 0)
		}
	}
}

func TestCircuitDoesNotAllocate(t *testing.T) {
	var unit terminal.Terminal = must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt}))
	for name, c := range circuits(t) {
		assert.Zero(t, testing.AllocsPerRun(20, func() {
			f := c.Flows(0.3)
			s := c.WithHeat(0.3, units.Celsius(60), units.Kilowatt)
			w := c.WithTerminal(0.3, unit, terminal.Conditions{})
			circuitSink += f.Consumer + s.Primary + w.Control + c.ConsumerRange().Least + c.Authority(circuitFlow).OpenFlow
		}), name)
	}
}

var circuitSink units.Flow

// One value of each kind used by several goroutines at once: the race detector
// has the say.
func TestCircuitConcurrentUse(t *testing.T) {
	var users sync.WaitGroup
	for _, c := range circuits(t) {
		want := c.Flows(0.4)
		for range 4 {
			users.Go(func() {
				for range 50 {
					assert.Equal(t, want, c.Flows(0.4))
				}
			})
		}
	}
	users.Wait()
}

// A circuit stands in the chain from signal to heat, whose budget is 1 µs and no
// allocation; with a terminal in the mixing loop it has none of its own.
func BenchmarkCircuit(b *testing.B) {
	var unit terminal.Terminal = must(terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 20 * units.Kilowatt}))
	for name, c := range circuits(b) {
		b.Run("WithHeat/"+name, func(b *testing.B) {
			b.ReportAllocs()
			h := 0.02
			for b.Loop() {
				circuitSink += c.WithHeat(h, units.Celsius(60), units.Kilowatt).Consumer
				if h += 1e-3; h > 1 {
					h = 0.02
				}
			}
		})
		b.Run("WithTerminal/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				circuitSink += c.WithTerminal(0.5, unit, terminal.Conditions{}).Consumer
			}
		})
	}
}
