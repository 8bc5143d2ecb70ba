package actuator

import (
	"math"
	"time"
)

// RunningTime returns how long the drive takes from one relative travel of the
// valve to another, at its constant speed, both clamped to what it reaches:
//
//	|h2 − h1| · s_v/s_a · running time of the drive for its own stroke
//
// It is false if the drive's running time is not stated or a travel is NaN.
func (m *Mounted) RunningTime(from, to float64) (time.Duration, bool) {
	full := m.fullTravelTime()
	if !(full > 0) || math.IsNaN(from) || math.IsNaN(to) {
		return 0, false
	}
	return seconds(math.Abs(m.reachable(to)-m.reachable(from)) * full), true
}

// CalibrationTime returns how long calibration takes from a stem extension, as a
// fraction of the valve's stroke: out to the extended stop and, unless the drive
// is fixed and closes there, in to the retracted stop. The whole stroke is waited
// for at most twice: from extension 0. It is false if the drive's running time
// is not stated or the extension is NaN.
func (m *Mounted) CalibrationTime(extension float64) (time.Duration, bool) {
	full := m.fullTravelTime()
	if !(full > 0) || math.IsNaN(extension) {
		return 0, false
	}
	in, out := m.stops()
	way := out - max(in, min(extension, out))
	if m.place.drive.seeksBothStops() {
		way += out - in
	}
	return seconds(way * full), true
}

// seeksBothStops reports whether calibration goes on from the extended stop to
// the retracted one.
func (a Actuator) seeksBothStops() bool {
	return a.cfg.StrokeMode == SelfAdapting || a.cfg.ClosingEnd == Retracted
}

// stops returns the least and the greatest extension that the drive reaches.
func (m *Mounted) stops() (in, out float64) {
	a, b := m.toStem.at(m.LeastTravel()), m.toStem.at(m.GreatestTravel())
	return min(a, b), max(a, b)
}

func (m *Mounted) reachable(travel float64) float64 {
	return max(m.LeastTravel(), min(travel, m.GreatestTravel()))
}

// fullTravelTime is the motor's time for the valve's whole stroke in seconds, 0
// if not stated; fullSpringTime is that of the spring.
func (m *Mounted) fullTravelTime() float64 { return m.ofValve(m.at().drive.cfg.RunningTime) }

func (m *Mounted) fullSpringTime() float64 { return m.ofValve(m.at().drive.cfg.springTime()) }

// ofValve takes a time for the drive's stroke to one for the valve's.
func (m *Mounted) ofValve(t time.Duration) float64 {
	p := m.at()
	if p.ratio == 0 {
		return 0
	}
	return t.Seconds() / p.ratio
}

// springTime is that of the motor where none is stated.
func (c *Config) springTime() time.Duration {
	if c.SpringTime == 0 {
		return c.RunningTime
	}
	return c.SpringTime
}

func seconds(s float64) time.Duration { return time.Duration(math.Round(s * float64(time.Second))) }
