package control

import "time"

// delay is the memory of a dead time: the values that went in over the last span of
// that length, as pieces of constant value, oldest first, in a ring. It always holds
// exactly the dead time.
//
// A piece is made of at least the shortest step. Values that go in for less are
// mixed by their times, so that what goes in comes out in total, and the ring needs
// no more pieces than were laid out.
type delay struct {
	ring   []piece
	first  int
	count  int
	least  time.Duration
	newest time.Duration // how long the newest piece was in total
}

// piece is a value that lasted for some time.
type piece struct {
	length time.Duration
	value  float64
}

func newDelay(dead, least time.Duration) delay {
	const spare = 3 // a piece half taken, one coming in, one from rounding down
	return delay{ring: make([]piece, int(dead/least)+spare), least: least}
}

// fill makes the memory as if the value had always gone in.
func (d *delay) fill(dead time.Duration, value float64) {
	d.first, d.count = 0, 0
	if dead > 0 {
		d.put(dead, value)
		d.newest = d.least
	}
}

// put appends a value.
func (d *delay) put(length time.Duration, value float64) {
	if d.count > 0 && d.extend(length, value) {
		return
	}
	d.ring[d.index(d.count)] = piece{length, value}
	d.newest = length
	d.count++
}

// extend adds to the newest piece a value that is the same, or one that comes before
// the piece is long enough.
func (d *delay) extend(length time.Duration, value float64) bool {
	p := &d.ring[d.index(d.count-1)]
	if p.value != value {
		if d.newest >= d.least {
			return false
		}
		share := float64(length) / float64(length+p.length)
		p.value += float64(share * (value - p.value))
	}
	p.length += length
	d.newest += length
	return true
}

// take removes the oldest piece, or the part of it that fits into a time above
// zero.
func (d *delay) take(limit time.Duration) piece {
	oldest := &d.ring[d.first]
	if oldest.length > limit {
		oldest.length -= limit
		return piece{limit, oldest.value}
	}
	p := *oldest
	d.first = d.index(1)
	d.count--
	return p
}

func (d *delay) index(i int) int {
	i += d.first
	if i >= len(d.ring) {
		i -= len(d.ring)
	}
	return i
}
