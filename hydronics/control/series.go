package control

import (
	"time"

	"github.com/indexrun/indexrun/units"
)

// Series is a run of a loop, a column for each quantity of a [Moment]. Make one with
// [NewSeries], or fill in slices of your own; those left nil are not written.
type Series struct {
	Step        time.Duration // from one place to the next
	Output      []float64
	Travel      []float64 // of the valve
	Drive       []float64 // of its motor, which also moves within the play
	Temperature []units.Temperature
	Deviation   []units.TemperatureDifference
}

// NewSeries allocates all columns for a run of some length in steps of step: the
// places are as many as whole steps fit in. It has none if either is not above
// zero.
func NewSeries(step, length time.Duration) Series {
	n := 0
	if step > 0 && length > 0 {
		n = int(length / step)
	}
	return Series{
		Step: step, Output: make([]float64, n), Travel: make([]float64, n), Drive: make([]float64, n),
		Temperature: make([]units.Temperature, n), Deviation: make([]units.TemperatureDifference, n),
	}
}

// Len returns the length of the longest column.
func (s Series) Len() int {
	return max(len(s.Output), len(s.Travel), len(s.Drive), len(s.Temperature), len(s.Deviation))
}

// Between returns the part of a series from one time after its start up to another, as
// far as it goes. It shares its columns with the whole.
func (s Series) Between(from, to time.Duration) Series {
	if s.Step <= 0 {
		return Series{}
	}
	first, last := int(max(0, from)/s.Step), int(max(0, to)/s.Step)
	return Series{
		Step: s.Step, Output: part(s.Output, first, last), Travel: part(s.Travel, first, last), Drive: part(s.Drive, first, last),
		Temperature: part(s.Temperature, first, last), Deviation: part(s.Deviation, first, last),
	}
}

func part[T any](column []T, first, last int) []T {
	last = min(last, len(column))
	first = min(first, last)
	return column[first:last:last]
}

func (s *Series) store(i int, m Moment) {
	put(s.Output, i, m.Output)
	put(s.Travel, i, m.Travel)
	put(s.Drive, i, m.Drive)
	put(s.Temperature, i, m.Temperature)
	put(s.Deviation, i, m.Deviation)
}

func put[T any](column []T, i int, v T) {
	if i < len(column) {
		column[i] = v
	}
}
