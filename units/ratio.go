package units

// Ratio is a share of something, 1 for the whole: a glycol fraction, a
// tolerance, a proportional band. Fractions that only the models exchange
// (relative travel, relative flow, demand) are plain float64.
type Ratio float64

// Units of Ratio.
const (
	One     Ratio = 1
	Percent Ratio = 0.01
)

var ratioTable = table{
	name: "ratio",
	units: []unitDef{
		{quantity: QuantityRatio, symbol: "", factor: 1, ucum: "1", bacnet: 95 + 1},
		{quantity: QuantityRatio, symbol: "%", factor: float64(Percent), aliases: []string{"percent", "pct"}, ucum: "%", bacnet: 98 + 1},
	},
	show: []display{{symbol: "%"}},
}
