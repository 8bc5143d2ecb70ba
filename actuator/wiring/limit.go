package wiring

import (
	"errors"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Limit says what a cable may do to the devices on it. On top of it, the lowest supply
// voltage that each load tolerates always holds.
type Limit struct {
	// SignalError is the greatest difference, either way, between signal seen and sent;
	// 0 = no limit.
	SignalError units.Voltage
	// SupplyDrop is the greatest drop from the supply without load to a device; 0 = no
	// limit.
	SupplyDrop units.Voltage
}

func (m Limit) validate() error {
	l := check.List{Package: packageName}
	check.NotNegative(&l, "SignalError", m.SignalError)
	check.NotNegative(&l, "SupplyDrop", m.SupplyDrop)
	return l.Err()
}

// strain is how much of a limit is used: 1 at the limit.
type strain struct {
	used   float64
	device int
	by     Bound
}

func (s *strain) take(used float64, device int, by Bound) {
	if used > s.used {
		*s = strain{used, device, by}
	}
}

// strain solves a configuration and finds the limit that is used most.
func (m Limit) strain(cfg Config) (strain, error) {
	c, err := New(cfg)
	if errors.Is(err, ErrOverload) {
		return strain{used: math.Inf(1), by: ByPower, device: len(cfg.Devices) - 1}, nil
	}
	var s strain
	for i, t := range c.terminals {
		drop := float64(cfg.Supply.Voltage - t.Supply)
		s.take(share(drop, float64(cfg.Supply.Voltage-cfg.Devices[i].Load.lowest())), i, ByTolerance)
		if m.SupplyDrop > 0 {
			s.take(drop/float64(m.SupplyDrop), i, BySupplyDrop)
		}
		if m.SignalError > 0 {
			s.take(math.Abs(float64(t.Offset/m.SignalError)), i, BySignalError)
		}
	}
	return s, err
}

// share returns drop/allowed; nothing is allowed if the supply is too low itself.
func share(drop, allowed float64) float64 {
	if allowed < 0 {
		return math.Inf(1)
	}
	if drop == 0 {
		return 0
	}
	return drop / allowed
}
