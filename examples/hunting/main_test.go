package main

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// The cases, in their order.
const (
	linear = iota
	equalPercentage
	pipeWide
)

// The days of each rule, simulated once.
var (
	classic = sync.OnceValues(func() ([]*day, error) { return simulateAll("zn") })
	sound   = sync.OnceValues(func() ([]*day, error) { return simulateAll("simc") })
)

func TestVerdicts(t *testing.T) {
	days, err := classic()
	require.NoError(t, err)
	for _, stretch := range days[equalPercentage].judged {
		assert.Equal(t, control.Steady, stretch.swing.Verdict, "from %v", stretch.from)
		assert.Greater(t, stretch.margin, 1.89, "from %v", stretch.from)
		assert.Greater(t, stretch.margin, 0.9*days[equalPercentage].tuned, "from %v", stretch.from)
	}
	for _, wrong := range []int{linear, pipeWide} {
		night, mild := days[wrong].judged[0], days[wrong].judged[afternoon/stretch]
		assert.Equal(t, control.Steady, night.swing.Verdict)
		assert.Greater(t, night.margin, 2.0)
		assert.Equal(t, control.Hunting, mild.swing.Verdict)
		assert.Less(t, mild.margin, 1.0, "theory foretells it")
		assert.Greater(t, mild.moved.Strokes, 20*days[equalPercentage].judged[afternoon/stretch].moved.Strokes)
	}
}

// The swing is found again by hand: half its height, and passes through the set point. Its
// period is near that of the limit of stability, as it must be when a loop swings
// because its gain is too high (Åström & Hägglund 1984).
func TestSwingByHand(t *testing.T) {
	days, err := classic()
	require.NoError(t, err)
	for _, d := range []*day{days[linear], days[pipeWide]} {
		mild := d.judged[afternoon/stretch]
		record := d.series.Deviation[mild.from/step : mild.to/step]
		lowest, highest, passes := record[0], record[0], 0
		for i, v := range record[1:] {
			lowest, highest = min(lowest, v), max(highest, v)
			if record[i] < 0 && v >= 0 {
				passes++
			}
		}
		period := (mild.to - mild.from).Seconds() / float64(passes)
		assert.InEpsilon(t, float64(highest-lowest)/2, float64(mild.swing.Amplitude), 0.25)
		assert.InEpsilon(t, period, mild.swing.Period.Seconds(), 0.03)
		process, err := d.process(mild.air)
		require.NoError(t, err)
		assert.InEpsilon(t, swingPeriod(process.Config(), d.tuning), period, 0.12)
	}
}

// swingPeriod is the period at which a loop with a PI controller swings at its limit of
// stability, in seconds: that of the limit without integral, made longer by the integral's lag,
//
//	ω·θ + atan(ω·τ) + atan(1/(ω·Ti)) = π
func swingPeriod(p control.ProcessConfig, t control.Tuning) float64 {
	low, high := math.Pi/10/p.DeadTime.Seconds(), math.Pi/p.DeadTime.Seconds()
	for range 60 {
		w := (low + high) / 2
		lag := w*p.DeadTime.Seconds() + math.Atan(w*p.TimeConstant.Seconds()) + math.Atan(1/(w*t.IntegralTime.Seconds()))
		if lag < math.Pi {
			low = w
		} else {
			high = w
		}
	}
	return 2 * math.Pi / low
}

// A calmer rule cures neither fault: the loops keep no margin worth the name.
func TestCalmerRuleLeavesNoMargin(t *testing.T) {
	days, err := sound()
	require.NoError(t, err)
	for _, stretch := range days[equalPercentage].judged {
		assert.Equal(t, control.Steady, stretch.swing.Verdict, "from %v", stretch.from)
		assert.Greater(t, stretch.margin, 3.0)
	}
	assert.Less(t, days[linear].worst().margin, 1.3)
	assert.Less(t, days[pipeWide].worst().margin, 1.3)
}

// The words under the table do not gainsay it: a loop that hunts is not told that it will
// not, and a ratio of 1.0 is none.
func TestOutlookFollowsTheTable(t *testing.T) {
	lively, err := classic()
	require.NoError(t, err)
	less, err := sound()
	require.NoError(t, err)
	wide := cases[pipeWide]
	u, err := newUnit(wide.name, wide.kvs, wide.shaping)
	require.NoError(t, err)
	least, err := simulate(u, rules["amigo"].tune)
	require.NoError(t, err)
	for want, d := range map[string]*day{
		"times that at which the loop swings":             lively[pipeWide],
		"the gain is about that at which the loop swings": less[pipeWide],
		"dead band, play and the\nintegral part":          least,
	} {
		require.Equal(t, control.Hunting, d.worst().swing.Verdict)
		authority, err := d.authority()
		require.NoError(t, err)
		text := advice(d, authority)
		assert.Contains(t, text, want)
		assert.NotContains(t, text, "before the loop swings")
		assert.NotContains(t, text, " 1.0 times")
	}
	assert.Equal(t, "the gain is 2.0 times that at which the loop swings", outlook(0.5, true))
	assert.Equal(t, "the gain may rise 2.0-fold before the loop swings", outlook(2, false))
	for _, near := range []float64{0.96, 1, 1.04} {
		assert.Equal(t, "the gain is about that at which the loop swings", outlook(near, false))
	}
}

// The valve counts its flow at the density at which the coil counts it: 0.58 l/s of water at 50 °C.
func TestValveHasTheCoilsDensity(t *testing.T) {
	u, err := newUnit("test", 6.3*units.Kv, cases[linear].shaping)
	require.NoError(t, err)
	assert.InDelta(t, 988, float64(u.valve.Density()), 0.5, "kg/m³ (IAPWS)")
	assert.InDelta(t, float64(u.coil.Design().Density), float64(u.valve.Density()), 0)
}

func TestOutputHoldsTheSetPoint(t *testing.T) {
	u, err := newUnit("test", 6.3*units.Kv, cases[equalPercentage].shaping)
	require.NoError(t, err)
	for _, air := range []units.Temperature{units.Celsius(1), halfLoad, units.Celsius(17)} {
		output, err := u.outputFor(air)
		require.NoError(t, err)
		travel, ok := u.drive.Travel(volts.Encode(output))
		require.True(t, ok)
		warmed := u.heat(travel, air).In(units.Watt) / plant.Conductance.In(units.WattPerKelvin)
		assert.InDelta(t, 20, air.Celsius()+warmed, 1e-6)

		settled, err := newLoop(u, control.Tuning{Band: 10 * units.Kelvin, IntegralTime: time.Minute})
		require.NoError(t, err)
		start := settled.Settle(control.Conditions{SetPoint: setPoint, Base: air})
		assert.InDelta(t, output, start.Output, 1e-6)
		assert.InDelta(t, travel, start.Travel, 1e-6)
		assert.InDelta(t, 0, float64(start.Deviation), 1e-9)
	}
}

func TestReportAndFigures(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing takes a while under the race detector")
	}
	folder := filepath.Join(t.TempDir(), "plots")
	var out bytes.Buffer
	require.NoError(t, run("zn", folder, &out))
	for _, c := range cases {
		assert.Contains(t, out.String(), c.name)
	}
	assert.Contains(t, out.String(), "to equal percentage, then tune again")
	assert.Contains(t, out.String(), "so a Kvs of 6.3")
	assert.Contains(t, out.String(), "Leave it.")
	assert.Contains(t, out.String(), "This rule is a bound")
	assert.Contains(t, out.String(), cautions)
	days, err := classic()
	require.NoError(t, err)
	for _, f := range figures {
		all, err := f.panels(days)
		require.NoError(t, err)
		assert.Equal(t, f.withAir, all.air != nil)
		for _, p := range all.plots() {
			assert.Equal(t, f.label, p.X.Label.Text, f.name)
			assert.Contains(t, p.Y.Label.Text, "(", "with a unit: %s", f.name)
		}
		requireLines(t, filepath.Join(folder, f.name+".png"), all.draw(draw.New(vgimg.New(width, height))))
		assert.Greater(t, polylines(t, filepath.Join(folder, f.name+".svg")), 12)
	}
}

// plots are all plots of a figure.
func (p panels) plots() []*plot.Plot {
	all := slices.Concat(p.rows...)
	if p.air != nil {
		all = append(all, p.air)
	}
	return all
}

// requireLines looks for each line's colour in its panel of a picture, left of the legend.
func requireLines(t *testing.T, name string, places [][]draw.Canvas) {
	t.Helper()
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	picture, err := png.Decode(file)
	require.NoError(t, err)
	lines := [][]draw.LineStyle{{supplyLine, limitLine}, {outputLine, travelLine}}
	for i, row := range places {
		for k, place := range row {
			for n, line := range lines[i] {
				assert.Greater(t, columnsWith(picture, place, line.Color), 60, "%s: row %d, column %d, line %d", name, i, k, n)
			}
			for _, line := range lines[1-i] {
				assert.Zero(t, columnsWith(picture, place, line.Color), "%s: row %d, column %d, a line of the other row", name, i, k)
			}
		}
	}
}

// columnsWith counts the columns of points in the left 45 % of a place, which the legend leaves
// free, that have a colour.
func columnsWith(picture image.Image, place draw.Canvas, want color.Color) (count int) {
	scale := float64(picture.Bounds().Dx()) / float64(width)
	high := picture.Bounds().Dy()
	left, right := int(float64(place.Min.X)*scale), int(float64(place.Min.X+0.45*(place.Max.X-place.Min.X))*scale)
	top, bottom := high-int(float64(place.Max.Y)*scale), high-int(float64(place.Min.Y)*scale)
	for x := left; x < right; x++ {
		for y := top; y < bottom; y++ {
			if color.RGBAModel.Convert(picture.At(x, y)) == want {
				count++
				break
			}
		}
	}
	return count
}

// polylines counts the paths of more than a hundred characters in a drawing.
func polylines(t *testing.T, name string) (count int) {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	decoder := xml.NewDecoder(file)
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return count
		}
		require.NoError(t, err)
		if element, ok := token.(xml.StartElement); ok {
			for _, a := range element.Attr {
				if a.Name.Local == "d" && len(a.Value) > 100 {
					count++
				}
			}
		}
	}
}

func TestUnknownRule(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "plots")
	var out strings.Builder
	require.ErrorContains(t, run("guess", folder, &out), "-rule")
	assert.Empty(t, out.String())
	assert.NoDirExists(t, folder)
}

// outputFor goes back along the chain, from heat to flow to travel to signal: the
// controller output that holds the set point.
func (u *unit) outputFor(air units.Temperature) (float64, error) {
	q, err := u.coil.FlowFor(units.Power(load(air))*designHeat, terminal.Conditions{Air: air})
	if err != nil {
		return 0, err
	}
	travel, err := u.valve.TravelForFlow(q, available-u.rest.Pressure(q))
	if err != nil {
		return 0, err
	}
	s, _ := u.drive.SignalFor(travel)
	return volts.Read(s).Demand, nil
}
