package wiring_test

import (
	"testing"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// Budget: none in the design; a cable of ten drives in well under a millisecond, so that
// a search over lengths or conductors feels immediate.
func BenchmarkNew(b *testing.B) {
	cfg := threeDrives()
	for len(cfg.Devices) < 10 {
		cfg.Devices = append(cfg.Devices, cfg.Devices[0])
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wiring.New(cfg); err != nil {
			b.Fatal(err)
		}
	}
}

// Budget: none of its own in the design; part of a static chain of 1 µs without allocations.
func BenchmarkTransferAt(b *testing.B) {
	line := transfer(b, mustChain(b, threeDrives()), 2)
	b.ReportAllocs()
	var sum float64
	for b.Loop() {
		sum += line.At(signal.Volts(6.2)).Number()
	}
	if sum == 0 {
		b.Fatal("no signal")
	}
}

func BenchmarkGreatestLength(b *testing.B) {
	cfg, limit := threeDrives(), wiring.Limit{SignalError: 0.2 * units.Volt}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wiring.GreatestLength(cfg, limit); err != nil {
			b.Fatal(err)
		}
	}
}
