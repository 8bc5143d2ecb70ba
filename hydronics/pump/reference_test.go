package pump_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/pump"
	"github.com/indexrun/indexrun/internal/reference"
	"github.com/indexrun/indexrun/units"
)

// TestFitAgainstExactArithmetic compares the least squares with normal equations
// solved in fractions. Some of the cases have b or c held at zero.
func TestFitAgainstExactArithmetic(t *testing.T) {
	held := map[string]int{}
	fits := reference.Compare(t, "pump_fits")
	for row := range fits.Rows() {
		points := parsePoints(t, row.Text("points"))
		require.Len(t, points, int(row.Float("count")))
		p, err := pump.New(pump.Config{Points: points})
		require.NoError(t, err)
		a, b, c := row.Float("a"), row.Float("b"), row.Float("c")
		for _, point := range points {
			q := point.Flow.In(units.LitrePerSecond)
			want := a - b*q - c*q*q
			fits.Note(row, "head over shut-off head", (p.Head(point.Flow).In(units.Kilopascal)-want)/a, "")
		}
		if b == 0 {
			held["b"]++
		}
		if c == 0 {
			held["c"]++
		}
	}
	fits.Require(1e-12)
	assert.Positive(t, held["b"])
	assert.Positive(t, held["c"])
}

func parsePoints(t *testing.T, text string) []pump.Point {
	t.Helper()
	var points []pump.Point
	for _, pair := range strings.Fields(text) {
		q, h, _ := strings.Cut(pair, ":")
		flow, err := strconv.ParseFloat(q, 64)
		require.NoError(t, err)
		head, err := strconv.ParseFloat(h, 64)
		require.NoError(t, err)
		points = append(points, pump.Point{Flow: units.Flow(flow) * units.LitrePerSecond, Head: units.Pressure(head) * units.Kilopascal})
	}
	return points
}

const coldWater = 1000 * units.KilogramPerCubicMetre

// metres is a head in metres of water.
func metres(h float64) units.Pressure { return pump.Head(units.Length(h)*units.Metre, coldWater) }

func litres(q float64) units.Flow { return units.Flow(q) * units.LitrePerSecond }

// epanetPump is a pump as the engine makes it of one point (q, h): the curve
// through (0, 4/3·h) and (q, h).
func epanetPump(t *testing.T, q, h, speed float64) pump.Pump {
	t.Helper()
	p, err := pump.New(pump.Config{
		ShutOff:    metres(h) * 4 / 3,
		Duty:       pump.Point{Flow: litres(q), Head: metres(h)},
		Efficiency: 0.75,
	})
	require.NoError(t, err)
	p, err = p.AtSpeed(speed)
	require.NoError(t, err)
	return p
}

// TestOperatingPointAgainstEPANET covers the affinity laws, pumps in parallel
// and in series and the check valves. The engine's own accuracy is 1e-5, and a
// shut check valve leaks some 1e-6 l/s there.
func TestOperatingPointAgainstEPANET(t *testing.T) {
	stopped, driven := 0, 0
	c := reference.Compare(t, "pump_operation")
	for row := range c.Rows() {
		pumps := []pump.Pump{epanetPump(t, row.Float("q1_l_s"), row.Float("h1_m"), row.Float("speed"))}
		if row.Float("q2_l_s") > 0 {
			pumps = append(pumps, epanetPump(t, row.Float("q2_l_s"), row.Float("h2_m"), row.Float("speed")))
		}
		system, err := pump.NewSystem(pump.SystemConfig{
			Static: metres(row.Float("static_m")),
			Loss:   pump.Point{Flow: litres(1), Head: metres(row.Float("resistance"))},
		})
		require.NoError(t, err)
		arrange := map[string]func(...pump.Pump) (pump.Bank, error){"one": pump.Parallel, "parallel": pump.Parallel, "series": pump.Series}
		bank, err := arrange[row.Text("arrangement")](pumps...)
		require.NoError(t, err)
		got := bank.Operate(system)
		if row.Float("flow_l_s") < 1e-4 {
			assert.Equal(t, pump.NoFlow, got.Status, "%v", row)
			assert.Zero(t, got.Flow, "%v", row)
			stopped++
			continue
		}
		c.Check(row, "flow_l_s", got.Flow.In(units.LitrePerSecond))
		c.Check(row, "head_m", float64(got.Head/metres(1)))
		if min(bank.Pump(0, got.Flow).Head, bank.Pump(len(pumps)-1, got.Flow).Head) < 0 {
			assert.True(t, math.IsNaN(float64(got.Shaft)), "a pump driven beyond its runout flow has no known power: %v", row)
			driven++
		} else {
			c.Check(row, "power_kW", got.Shaft.In(units.Kilowatt))
		}
		for i := range pumps {
			c.CheckAbs(row, []string{"flow1_l_s", "flow2_l_s"}[i], bank.Pump(i, got.Flow).Flow.In(units.LitrePerSecond))
		}
	}
	c.Require(2e-5, "flow_l_s", "head_m")
	c.Require(2e-3, "power_kW")
	c.Require(2e-4) // of the pumps, in l/s
	assert.Positive(t, stopped)
	assert.Positive(t, driven)
}

// TestTextbook works the examples of F. M. White, Fluid Mechanics, chapter 11
// (numbers from memory): a pump of 490 − 0.26·Q² between two reservoirs that
// take 120 + 1.335·Q², heads in feet and Q in thousands of US gallons per
// minute; then two of them in parallel and in series.
func TestTextbook(t *testing.T) {
	const thousandGPM = 1000 * units.USGallonPerMinute
	feet := func(h float64) units.Pressure { return pump.Head(units.Length(h)*units.Foot, coldWater) }
	p, err := pump.New(pump.Config{ShutOff: feet(490), Duty: pump.Point{Flow: 10 * thousandGPM, Head: feet(490 - 26)}})
	require.NoError(t, err)
	system, err := pump.NewSystem(pump.SystemConfig{Static: feet(120), Loss: pump.Point{Flow: 10 * thousandGPM, Head: feet(133.5)}})
	require.NoError(t, err)
	parallel, err := pump.Parallel(p, p)
	require.NoError(t, err)
	series, err := pump.Series(p, p)
	require.NoError(t, err)
	for _, c := range []struct {
		name       string
		got        pump.State
		flow, head float64
	}{
		{"one pump", p.Operate(system), 15.2, 430},
		{"two in parallel", parallel.Operate(system), 16.3, 473},
		{"two in series", series.Operate(system), 21.5, 740},
	} {
		assert.InDelta(t, c.flow, c.got.Flow.In(thousandGPM), 0.06, c.name)
		assert.InDelta(t, c.head, float64(c.got.Head/feet(1)), 2.5, c.name)
	}
}

// TestTextbookSuction works the suction example of the same chapter (numbers
// from memory): where must the impeller be, under an open surface, if 40 ft are
// required and the suction pipe loses 6 ft?
func TestTextbookSuction(t *testing.T) {
	const water60 = 62.4 * units.PoundPerCubicFoot
	for _, c := range []struct {
		name          string
		vapour        float64 // psi abs
		density       units.Density
		height, exact float64 // of the surface above the impeller, ft
	}{
		{"60 °F", 0.26, water60, 12.7, 40 + 6 - (14.7-0.26)*144/62.4},
		{"200 °F", 11.52, 0.9635 * water60, 38.4, 40 + 6 - (14.7-11.52)*144/(62.4*0.9635)},
	} {
		suction := pump.Suction{
			Pressure: units.Absolute(14.7 * units.PoundPerSquareInch),
			Height:   units.Length(c.height) * units.Foot,
			Loss:     pump.Head(6*units.Foot, c.density),
			Vapour:   units.Absolute(units.Pressure(c.vapour) * units.PoundPerSquareInch),
			Density:  c.density,
		}
		got, err := suction.NPSH(40 * units.Foot)
		require.NoError(t, err)
		assert.InDelta(t, 0, got.Margin.In(units.Foot), 0.06, c.name)
		assert.InDelta(t, c.height-c.exact, got.Margin.In(units.Foot), 1e-9, c.name)
		assert.InDelta(t, 1, got.Ratio, 0.0015, c.name)
	}
}
