package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Material is a pipe wall whose roughness is known. It marshals as text, such
// as "commercial-steel".
type Material uint8

// The materials: those of Moody's chart that building services use, steel in
// the states that a heating or chilled-water system leaves it in, and plastic.
const (
	DrawnTube         Material = iota // copper, brass, drawn stainless steel, glass
	PlasticTube                       // PE-X, PE-RT, PP, PVC, multilayer
	CommercialSteel                   // new steel pipe
	TreatedSteel                      // steel, heating water deaerated and treated
	UntreatedSteel                    // steel, heating water of any quality
	CorrodedSteel                     // steel, moderately corroded or lightly scaled
	GalvanisedIron                    // galvanised iron or steel
	AsphaltedCastIron                 // asphalted cast iron
	CastIron                          // new cast iron
	materialCount
)

type wall struct {
	word      string
	roughness units.Length
	source    string
}

func (row wall) name() string { return row.word }

const (
	moody     = "Moody 1944, figure 2"
	idelchik  = "Idelchik, Handbook of Hydraulic Resistance, table of equivalent roughness"
	practice  = "common practice, no published source"
	moodyUnit = units.Foot
)

// walls gives Moody's roughness in his own unit, the foot.
var walls = [materialCount]wall{
	DrawnTube:         {"drawn-tube", 0.000005 * moodyUnit, moody},
	PlasticTube:       {"plastic-tube", 0.007 * units.Millimetre, practice},
	CommercialSteel:   {"commercial-steel", 0.00015 * moodyUnit, moody},
	TreatedSteel:      {"treated-steel", 0.1 * units.Millimetre, idelchik},
	UntreatedSteel:    {"untreated-steel", 0.2 * units.Millimetre, idelchik},
	CorrodedSteel:     {"corroded-steel", 0.4 * units.Millimetre, idelchik},
	GalvanisedIron:    {"galvanised-iron", 0.0005 * moodyUnit, moody},
	AsphaltedCastIron: {"asphalted-cast-iron", 0.0004 * moodyUnit, moody},
	CastIron:          {"cast-iron", 0.00085 * moodyUnit, moody},
}

// Materials lists every material in the order of the constants.
func Materials() []Material { return constants(materialCount) }

// Roughness returns the equivalent sand roughness ε of the wall, the one of
// Colebrook's formula; NaN for no material.
//
//	drawn-tube           0.0015 mm  Moody 1944
//	plastic-tube         0.007 mm   common practice, no published source
//	commercial-steel     0.046 mm   Moody 1944
//	treated-steel        0.1 mm     Idelchik
//	untreated-steel      0.2 mm     Idelchik
//	corroded-steel       0.4 mm     Idelchik
//	galvanised-iron      0.15 mm    Moody 1944
//	asphalted-cast-iron  0.12 mm    Moody 1944
//	cast-iron            0.26 mm    Moody 1944
func (m Material) Roughness() units.Length {
	if m >= materialCount {
		return units.Length(math.NaN())
	}
	return walls[m].roughness
}

// Source names where the roughness comes from; empty for no material.
func (m Material) Source() string {
	if m >= materialCount {
		return ""
	}
	return walls[m].source
}

var materialWords = wordList("Material", walls[:])

// String returns the word, such as "commercial-steel".
func (m Material) String() string { return materialWords.Text(uint8(m)) }

// MarshalText returns the word; a value that is no material is an error.
func (m Material) MarshalText() ([]byte, error) { return materialWords.Marshal(uint8(m)) }

// UnmarshalText reads the word.
func (m *Material) UnmarshalText(text []byte) error { return words.Into(&materialWords, text, m) }
