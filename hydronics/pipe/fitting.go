package pipe

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

// Fitting is a kind of pipe fitting or full-bore valve whose loss is known by
// the three-constant method. r/D is the radius of its axis over the bore. It
// marshals as text, such as "threaded-elbow-90".
//
// The tees are for the whole flow going one way. With a split flow each path
// has a loss of its own, negative in some; see the diagrams of I. E. Idelchik,
// Handbook of Hydraulic Resistance, chapter 7.
type Fitting uint8

// The fittings.
const (
	ThreadedElbow90     Fitting = iota // 90° elbow, threaded, r/D = 1
	ThreadedLongElbow90                // 90° elbow, threaded, r/D = 1.5
	WeldedElbow90                      // 90° elbow, flanged or welded, r/D = 1
	Bend90Radius2                      // 90° bend, r/D = 2
	Bend90Radius4                      // 90° bend, r/D = 4
	Bend90Radius6                      // 90° bend, r/D = 6
	MitredElbow90                      // 90° mitre, one weld
	ThreadedElbow45                    // 45° elbow, threaded, r/D = 1
	LongElbow45                        // 45° elbow, r/D = 1.5
	MitredElbow45                      // 45° mitre, one weld
	ThreadedReturn180                  // close return, threaded, r/D = 1
	FlangedReturn180                   // return, flanged, r/D = 1
	LongReturn180                      // return, any joint, r/D = 1.5
	ThreadedTeeBranch                  // tee through the branch, threaded
	FlangedTeeBranch                   // tee through the branch, flanged or welded
	StubInTeeBranch                    // stub-in tee through the branch
	ThreadedTeeRun                     // tee straight through, threaded
	FlangedTeeRun                      // tee straight through, flanged or welded
	StubInTeeRun                       // stub-in tee straight through
	GlobeValve                         // globe valve, fully open
	AngleValve                         // 90° angle valve, fully open
	ObliqueValve                       // 45° pattern (Y) valve, fully open
	GateValve                          // gate valve, fully open
	BallValve                          // full-bore ball valve, fully open
	PlugValve                          // plug valve, straight through, fully open
	DiaphragmValve                     // dam-type diaphragm valve, fully open
	SwingCheckValve                    // swing check valve, fully open
	LiftCheckValve                     // lift check valve, fully open
	fittingCount
)

// threeK is one row of the table: the fitting's word and the constants of
// K = K1/Re + Ki·(1 + Kd/Dn^0.3), Dn in inches.
type threeK struct {
	word       string
	k1, ki, kd float64
}

func (row threeK) name() string { return row.word }

var fittings = [fittingCount]threeK{
	ThreadedElbow90:     {"threaded-elbow-90", 800, 0.14, 4.0},
	ThreadedLongElbow90: {"threaded-long-elbow-90", 800, 0.071, 4.2},
	WeldedElbow90:       {"welded-elbow-90", 800, 0.091, 4.0},
	Bend90Radius2:       {"bend-90-radius-2", 800, 0.056, 3.9},
	Bend90Radius4:       {"bend-90-radius-4", 800, 0.066, 3.9},
	Bend90Radius6:       {"bend-90-radius-6", 800, 0.075, 4.2},
	MitredElbow90:       {"mitred-elbow-90", 1000, 0.27, 4.0},
	ThreadedElbow45:     {"threaded-elbow-45", 500, 0.071, 4.2},
	LongElbow45:         {"long-elbow-45", 500, 0.052, 4.0},
	MitredElbow45:       {"mitred-elbow-45", 500, 0.086, 4.0},
	ThreadedReturn180:   {"threaded-return-180", 1000, 0.23, 4.0},
	FlangedReturn180:    {"flanged-return-180", 1000, 0.12, 4.0},
	LongReturn180:       {"long-return-180", 1000, 0.10, 4.0},
	ThreadedTeeBranch:   {"threaded-tee-branch", 500, 0.274, 4.0},
	FlangedTeeBranch:    {"flanged-tee-branch", 800, 0.28, 4.0},
	StubInTeeBranch:     {"stub-in-tee-branch", 1000, 0.34, 4.0},
	ThreadedTeeRun:      {"threaded-tee-run", 200, 0.091, 4.0},
	FlangedTeeRun:       {"flanged-tee-run", 150, 0.05, 4.0},
	StubInTeeRun:        {"stub-in-tee-run", 100, 0, 0},
	GlobeValve:          {"globe-valve", 1500, 1.7, 3.6},
	AngleValve:          {"angle-valve", 1000, 0.69, 4.0},
	ObliqueValve:        {"oblique-valve", 950, 0.25, 4.0},
	GateValve:           {"gate-valve", 300, 0.037, 3.9},
	BallValve:           {"ball-valve", 300, 0.017, 3.5},
	PlugValve:           {"plug-valve", 300, 0.084, 3.9},
	DiaphragmValve:      {"diaphragm-valve", 1000, 0.69, 4.9},
	SwingCheckValve:     {"swing-check-valve", 1500, 0.46, 4.0},
	LiftCheckValve:      {"lift-check-valve", 2000, 2.85, 3.8},
}

// Fittings lists every fitting in the order of the constants.
func Fittings() []Fitting { return constants(fittingCount) }

// Loss returns the loss coefficient of the fitting in a pipe of a nominal size
// (DN, NPS: [Size.Nominal]), by the velocity in that pipe:
//
//	K = K₁/Re + K_i·(1 + K_d/(Dn/1 in)^0.3)
//
// A size that is not above zero, or no such fitting, is an error.
//
// Source: P. Silverberg and R. Darby, "Correlate pressure drops through
// fittings", Chemical Engineering 106 (July 1999), 101–104, and 108 (April
// 2001), 127–130.
// Fittings of one kind differ by ±20 … 35 % between makes (ASHRAE Handbook
// Fundamentals, chapter Pipe Sizing; from memory).
func (f Fitting) Loss(nominal units.Length) (Loss, error) {
	l := check.List{Package: "pipe"}
	check.Enum(&l, "Fitting", f, fittingCount-1)
	check.Positive(&l, "nominal size", nominal)
	if err := l.Err(); err != nil {
		return Loss{}, err
	}
	row := fittings[f]
	scale := math.Pow(nominal.In(units.Inch), -0.3)
	return Loss{Constant: row.ki * (1 + float64(row.kd*scale)), Laminar: row.k1}, nil
}

var fittingWords = wordList("Fitting", fittings[:])

// String returns the word, such as "threaded-elbow-90".
func (f Fitting) String() string { return fittingWords.Text(uint8(f)) }

// MarshalText returns the word; a value that is no fitting is an error.
func (f Fitting) MarshalText() ([]byte, error) { return fittingWords.Marshal(uint8(f)) }

// UnmarshalText reads the word.
func (f *Fitting) UnmarshalText(text []byte) error { return words.Into(&fittingWords, text, f) }
