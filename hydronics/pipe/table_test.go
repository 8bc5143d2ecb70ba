package pipe_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/units"
)

// TestEuropeanTables compares a few bores with the values printed in pipe
// tables (from memory).
func TestEuropeanTables(t *testing.T) {
	bore := map[string]float64{}
	for _, size := range append(pipe.EN10255Medium(), pipe.EN1057()...) {
		bore[size.String()] = size.Bore().In(units.Millimetre)
	}
	for name, want := range map[string]float64{
		"EN 10255 medium DN10": 12.6, "EN 10255 medium DN15": 16.1, "EN 10255 medium DN20": 21.7, "EN 10255 medium DN25": 27.3,
		"EN 10255 medium DN32": 36.0, "EN 10255 medium DN40": 41.9, "EN 10255 medium DN50": 53.1, "EN 10255 medium DN65": 68.9,
		"EN 10255 medium DN80": 80.9, "EN 10255 medium DN100": 105.3, "EN 10255 medium DN125": 129.7, "EN 10255 medium DN150": 155.1,
		"EN 1057 15 mm": 13.6, "EN 1057 22 mm": 20.2, "EN 1057 28 mm": 26.2, "EN 1057 35 mm": 32.6, "EN 1057 42 mm": 39.6, "EN 1057 54 mm": 51.6,
		"EN 1057 10 mm": 8.8, "EN 1057 12 mm": 10.8, "EN 1057 18 mm": 16.4, "EN 1057 66.7 mm": 64.3, "EN 1057 76.1 mm": 73.1, "EN 1057 108 mm": 105,
	} {
		assert.InDelta(t, want, bore[name], 1e-9, name)
	}
}

func TestTablesRiseAndAreFresh(t *testing.T) {
	for _, table := range []func() []pipe.Size{pipe.EN10255Medium, pipe.EN1057, pipe.ASMEB3610Schedule40, pipe.ASMEB3610Schedule80} {
		sizes := table()
		for i := 1; i < len(sizes); i++ {
			assert.Greater(t, sizes[i].Bore(), sizes[i-1].Bore())
			assert.Greater(t, sizes[i].Nominal, sizes[i-1].Nominal)
		}
		sizes[0] = pipe.Size{}
		assert.NotEqual(t, sizes[0], table()[0])
	}
	assert.Equal(t, "own", pipe.Size{Name: "own"}.String())
}

func TestFind(t *testing.T) {
	for name, bore := range map[string]float64{"DN25": 27.3, "dn 25": 27.3, "EN 10255 medium DN65": 68.9} {
		size, err := pipe.Find(pipe.EN10255Medium(), name)
		require.NoError(t, err, name)
		assert.InDelta(t, bore, size.Bore().In(units.Millimetre), 1e-9)
	}
	for _, table := range [][]pipe.Size{pipe.EN1057(), pipe.ASMEB3610Schedule40(), pipe.ASMEB3610Schedule80()} {
		for _, want := range table {
			size, err := pipe.Find(table, want.Name)
			require.NoError(t, err)
			assert.Equal(t, want, size)
		}
	}
	_, err := pipe.Find(pipe.EN1057(), "DN25")
	require.EqualError(t, err, "pipe: Name: got DN25, want one of 10 mm, 12 mm, 15 mm, 18 mm, 22 mm, 28 mm, 35 mm, 42 mm, 54 mm, 66.7 mm, 76.1 mm, 108 mm")
	_, err = pipe.Find(nil, "DN25")
	require.ErrorIs(t, err, units.ErrInvalid)
}

// TestConfigJSON: a configuration survives JSON without loss.
func TestConfigJSON(t *testing.T) {
	want := steelSizing()
	data, err := json.Marshal(want)
	require.NoError(t, err)
	var got pipe.SizingConfig
	require.NoError(t, json.Unmarshal(data, &got))
	assert.Equal(t, want, got)
}

func TestWords(t *testing.T) {
	for _, f := range pipe.Fittings() {
		text, err := f.MarshalText()
		require.NoError(t, err)
		back := pipe.Fitting(255)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, f, back)
	}
	for _, m := range pipe.Materials() {
		text, err := m.MarshalText()
		require.NoError(t, err)
		back := pipe.Material(255)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, m, back)
		assert.NotEmpty(t, m.Source())
		assert.Positive(t, m.Roughness())
	}
}

func TestUnknownWords(t *testing.T) {
	var f pipe.Fitting
	var m pipe.Material
	require.ErrorIs(t, f.UnmarshalText([]byte("elbow")), units.ErrInvalid)
	assert.ErrorContains(t, m.UnmarshalText([]byte("cheese")), `pipe: Material: got "cheese", want one of drawn-tube, plastic-tube, `)
	_, err := pipe.Fitting(200).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	_, err = pipe.Material(200).MarshalText()
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.Equal(t, "unknown 200", pipe.Fitting(200).String())
	assert.Equal(t, "unknown 200", pipe.Material(200).String())
	assert.Empty(t, pipe.Material(200).Source())
	assert.True(t, math.IsNaN(float64(pipe.Material(200).Roughness())))
}

func TestLossDomain(t *testing.T) {
	nan := units.Length(math.NaN())
	fault := func(_ pipe.Loss, err error) error { return err }
	for name, err := range map[string]error{
		"fitting without size": fault(pipe.BallValve.Loss(0)),
		"no fitting":           fault(pipe.Fitting(200).Loss(units.Inch)),
		"no Kv":                fault(pipe.LossOfKv(0, units.Metre)),
		"no bore":              fault(pipe.LossOfKv(1*units.Kv, nan)),
		"widening contraction": fault(pipe.SuddenContraction(1*units.Metre, 2*units.Metre)),
		"narrowing expansion":  fault(pipe.SuddenExpansion(2*units.Metre, 1*units.Metre)),
		"unknown bore":         fault(pipe.SuddenExpansion(nan, units.Metre)),
		"flat cone":            fault(pipe.GradualContraction(2*units.Metre, 1*units.Metre, 0, 0.02)),
		"wide cone":            fault(pipe.GradualExpansion(1*units.Metre, 2*units.Metre, 181*units.Degree, 0.02)),
		"cone of friction":     fault(pipe.GradualExpansion(1*units.Metre, 2*units.Metre, 30*units.Degree, -1)),
		"bend too tight":       fault(pipe.Bend(90*units.Degree, 4*units.Millimetre, 10*units.Millimetre, 0.02)),
		"bend too far":         fault(pipe.Bend(270*units.Degree, 40*units.Millimetre, 10*units.Millimetre, 0.02)),
		"bend in no pipe":      fault(pipe.Bend(90*units.Degree, 40*units.Millimetre, 0, 0.02)),
		"frictionless bend":    fault(pipe.Bend(90*units.Degree, 40*units.Millimetre, 10*units.Millimetre, 0)),
	} {
		assert.ErrorIs(t, err, units.ErrInvalid, name)
	}
}

// TestReducerJumps measures the jumps that the source's pieces have.
func TestReducerJumps(t *testing.T) {
	const f = 0.02
	at := func(angle float64) float64 {
		loss, err := pipe.GradualExpansion(20*units.Millimetre, 32*units.Millimetre, units.Angle(angle)*units.Degree, f)
		require.NoError(t, err)
		return loss.Constant
	}
	beta2 := 20.0 * 20 / (32 * 32)
	m := (1 - beta2) * (1 - beta2)
	cone := f * (1 - beta2*beta2) / (8 * math.Sin(math.Pi/6))
	assert.InDelta(t, 0.001*m, at(20.000001)-at(20), 0.0001)
	assert.InDelta(t, 0.009*m-cone, at(60.000001)-at(60), 0.0001)
	for angle := 5.0; angle < 179; angle += 0.01 {
		if math.Abs(angle-20) > 0.02 && math.Abs(angle-60) > 0.02 && math.Abs(at(angle+0.01)-at(angle)) > 0.001 {
			t.Fatalf("K jumps at %v°", angle)
		}
	}
}
