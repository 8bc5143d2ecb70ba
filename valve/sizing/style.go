package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// A Style is a type of valve and trim with its flow direction. "Opening" flow
// tends to open the plug, "closing" flow to close it; "outward" and "inward" are
// through the wall of a cage.
type Style uint8

// The styles of IEC 60534-2-1:2011, Table D.2. Its multistage trims are left out: it
// has FL but no Fd for them, and the estimate of xFz does not hold for them (all from
// memory).
const (
	GlobeThreeVPort Style = iota
	GlobeFourVPort
	GlobeSixVPort
	GlobeContouredOpening
	GlobeContouredClosing
	GlobeDrilledCage60
	GlobeDrilledCage120
	GlobeCageOutward
	GlobeCageInward
	GlobeDoublePorted
	GlobeDoubleContoured
	AngleContouredOpening
	AngleContouredClosing
	AngleCageOutward
	AngleCageInward
	AngleVenturi
	SmallFlowVNotch
	SmallFlowFlatSeat
	SmallFlowTaperedNeedle // Fd depends on the Kv: see [NeedleFd]
	EccentricSphericalOpening
	EccentricSphericalClosing
	EccentricConicalOpening
	EccentricConicalClosing
	Butterfly70
	Butterfly60
	ButterflyFluted70
	ButterflyOffset70
	BallFullBore70
	BallSegmented
)

var styleWords = words.List{Package: "sizing", Field: "Style", Words: []string{
	GlobeThreeVPort:           "globe-three-v-port",
	GlobeFourVPort:            "globe-four-v-port",
	GlobeSixVPort:             "globe-six-v-port",
	GlobeContouredOpening:     "globe-contoured-opening",
	GlobeContouredClosing:     "globe-contoured-closing",
	GlobeDrilledCage60:        "globe-drilled-cage-60",
	GlobeDrilledCage120:       "globe-drilled-cage-120",
	GlobeCageOutward:          "globe-cage-outward",
	GlobeCageInward:           "globe-cage-inward",
	GlobeDoublePorted:         "globe-double-ported",
	GlobeDoubleContoured:      "globe-double-contoured",
	AngleContouredOpening:     "angle-contoured-opening",
	AngleContouredClosing:     "angle-contoured-closing",
	AngleCageOutward:          "angle-cage-outward",
	AngleCageInward:           "angle-cage-inward",
	AngleVenturi:              "angle-venturi",
	SmallFlowVNotch:           "small-flow-v-notch",
	SmallFlowFlatSeat:         "small-flow-flat-seat",
	SmallFlowTaperedNeedle:    "small-flow-tapered-needle",
	EccentricSphericalOpening: "eccentric-spherical-opening",
	EccentricSphericalClosing: "eccentric-spherical-closing",
	EccentricConicalOpening:   "eccentric-conical-opening",
	EccentricConicalClosing:   "eccentric-conical-closing",
	Butterfly70:               "butterfly-70",
	Butterfly60:               "butterfly-60",
	ButterflyFluted70:         "butterfly-fluted-70",
	ButterflyOffset70:         "butterfly-offset-70",
	BallFullBore70:            "ball-full-bore-70",
	BallSegmented:             "ball-segmented",
}}

// styleFactors holds FL and Fd at rated travel, and the number of holes of multi-hole
// trims: IEC 60534-2-1:2011, Table D.2 (from memory; GlobeContouredOpening,
// EccentricSphericalOpening and BallSegmented are confirmed by the standard's worked
// examples).
var styleFactors = [...]struct {
	fl, fd float64
	holes  int
}{
	GlobeThreeVPort:           {fl: 0.90, fd: 0.48},
	GlobeFourVPort:            {fl: 0.90, fd: 0.41},
	GlobeSixVPort:             {fl: 0.90, fd: 0.30},
	GlobeContouredOpening:     {fl: 0.90, fd: 0.46},
	GlobeContouredClosing:     {fl: 0.80, fd: 1.00},
	GlobeDrilledCage60:        {fl: 0.90, fd: 0.13, holes: 60},
	GlobeDrilledCage120:       {fl: 0.90, fd: 0.09, holes: 120},
	GlobeCageOutward:          {fl: 0.90, fd: 0.41},
	GlobeCageInward:           {fl: 0.85, fd: 0.41},
	GlobeDoublePorted:         {fl: 0.90, fd: 0.28},
	GlobeDoubleContoured:      {fl: 0.85, fd: 0.32},
	AngleContouredOpening:     {fl: 0.90, fd: 0.46},
	AngleContouredClosing:     {fl: 0.80, fd: 1.00},
	AngleCageOutward:          {fl: 0.90, fd: 0.41},
	AngleCageInward:           {fl: 0.85, fd: 0.41},
	AngleVenturi:              {fl: 0.50, fd: 1.00},
	SmallFlowVNotch:           {fl: 0.98, fd: 0.70},
	SmallFlowFlatSeat:         {fl: 0.85, fd: 0.30},
	SmallFlowTaperedNeedle:    {fl: 0.95},
	EccentricSphericalOpening: {fl: 0.85, fd: 0.42},
	EccentricSphericalClosing: {fl: 0.68, fd: 0.42},
	EccentricConicalOpening:   {fl: 0.77, fd: 0.44},
	EccentricConicalClosing:   {fl: 0.79, fd: 0.44},
	Butterfly70:               {fl: 0.62, fd: 0.57},
	Butterfly60:               {fl: 0.70, fd: 0.50},
	ButterflyFluted70:         {fl: 0.67, fd: 0.30},
	ButterflyOffset70:         {fl: 0.67, fd: 0.57},
	BallFullBore70:            {fl: 0.74, fd: 0.99},
	BallSegmented:             {fl: 0.60, fd: 0.98},
}

// Valve returns a valve of this style with the typical factors for rated travel
// and nominal size d. XFz is left to be estimated from them and the Kv. Two
// things no table can know and are left for the caller: HoleDiameter of the drilled
// cages, without which [CavitationAt] refuses them, and Fd of a tapered needle
// ([NeedleFd]), without which all refuse it. A style that does not exist gives factors
// of 0, which all refuse.
func (s Style) Valve(d units.Length) Valve {
	if int(s) >= len(styleFactors) {
		return Valve{Diameter: d}
	}
	f := &styleFactors[s]
	return Valve{Diameter: d, FL: f.fl, Fd: f.fd, Holes: f.holes}
}

// XFz returns the typical xFz of a wide open valve of this style and Kv: [EstimateXFz],
// the standard's own estimate, at the style's FL and Fd. There is no constant for a
// style, because xFz falls as Kv rises: a contoured globe valve has 0.58 at Kv 1, 0.38
// at 10 and 0.23 at 100. It is NaN where a style leaves open what the estimate needs
// ([Style.Valve]).
func (s Style) XFz(kv units.FlowCoefficient) float64 {
	v := s.Valve(0)
	if v.Fd == 0 {
		return math.NaN()
	}
	return EstimateXFz(kv, v)
}

// NeedleFd returns Fd of a tapered needle at a Kv, with FL and the diameter Do of its
// seat orifice:
//
//	Fd = N19·√(C·FL)/Do
//
// IEC 60534-2-1:2011, Table D.2 and, for N19 = 2.5 with Kv and mm, Table 1 (both from
// memory).
func NeedleFd(kv units.FlowCoefficient, fl float64, orifice units.Length) float64 {
	return n19 * math.Sqrt(kv.In(units.Kv)*fl) / orifice.In(units.Millimetre)
}

// String returns the style in words, such as "globe-contoured-opening".
func (s Style) String() string { return styleWords.Text(uint8(s)) }

// MarshalText is [Style.String] for styles that exist.
func (s Style) MarshalText() ([]byte, error) { return styleWords.Marshal(uint8(s)) }

// UnmarshalText reads what MarshalText writes.
func (s *Style) UnmarshalText(text []byte) error { return words.Into(&styleWords, text, s) }
