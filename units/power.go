package units

// Power is a heat flow or a mechanical or electrical power; it holds watt.
type Power float64

// Units of Power. The Btu is that of the International Table,
// 1055.05585262 J; a ton of refrigeration is 12 000 Btu/h (NIST SP 811, B.8). The
// trade's MBH, whose M is the Roman thousand, is read as kBtu/h (common practice, no
// published source).
const (
	Watt               Power = 1
	Kilowatt           Power = 1e3
	Megawatt           Power = 1e6
	BtuPerHour         Power = joulePerBtu / 3600
	KiloBtuPerHour     Power = 1000 * BtuPerHour
	TonOfRefrigeration Power = 12000 * BtuPerHour
)

var powerTable = table{
	name: "power",
	units: []unitDef{
		{quantity: QuantityPower, symbol: "W", factor: float64(Watt), ucum: "W", bacnet: 47 + 1},
		{quantity: QuantityPower, symbol: "kW", factor: float64(Kilowatt), aliases: []string{"KW", "kw"}, ucum: "kW", bacnet: 48 + 1},
		{quantity: QuantityPower, symbol: "MW", factor: float64(Megawatt), ucum: "MW", bacnet: 49 + 1},
		{quantity: QuantityPower, symbol: "Btu/h", factor: float64(BtuPerHour), aliases: []string{"BTU/h", "Btu/hr", "BTU/hr", "btuh", "Btuh", "BTUH"}, ucum: "[Btu_IT]/h", bacnet: 50 + 1},
		{quantity: QuantityPower, symbol: "kBtu/h", factor: float64(KiloBtuPerHour), aliases: []string{"kBTU/h", "kBtu/hr", "kBTU/hr", "MBH", "Mbh"}, ucum: "1000.[Btu_IT]/h", bacnet: 157 + 1},
		{quantity: QuantityPower, symbol: "TR", factor: float64(TonOfRefrigeration), aliases: []string{"ton", "tons", "RT", "tonofrefrigeration", "tonsofrefrigeration"}, ucum: "12000.[Btu_IT]/h", bacnet: 52 + 1},
	},
	usual: "kW",
	show:  []display{{symbol: "MW", atSI: 1e6}, {symbol: "kW", atSI: 1e3}, {symbol: "W"}},
}
