package wiring

import (
	"errors"
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Limit says what a cable may do to the devices on it. On top of it, the tolerance of
// each load's supply voltage always holds, at its upper end too.
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
		drop, load := float64(cfg.Supply.Voltage-t.Supply), cfg.Devices[i].Load
		s.take(share(drop, float64(cfg.Supply.Voltage-load.lowest())), i, ByTolerance)
		if t.Supply > load.highest()*(1+tightness) {
			s.take(math.Inf(1), i, ByTolerance)
		}
		if m.SupplyDrop > 0 {
			s.take(drop/float64(m.SupplyDrop), i, BySupplyDrop)
		}
		if m.SignalError > 0 {
			s.take(math.Abs(float64(t.Offset/m.SignalError)), i, BySignalError)
		}
	}
	return s, err
}

// bare returns an error if a limit is broken already without any cable, where each
// device has the most of the supply: its voltage and the output resistance of the
// controller decide.
func (m Limit) bare(cfg Config) error {
	s, err := m.strain(cfg.scaled(0))
	if err != nil || s.used <= 1 {
		return err
	}
	reason := ""
	if s.by == ByTolerance {
		load := cfg.Devices[s.device].Load
		reason = fmt.Sprintf(", which tolerates %s … %s, on a supply of %v", volts(load.lowest(), 1), volts(load.highest(), 1), cfg.Supply.Voltage)
	}
	return fmt.Errorf("%w: %v is broken without any cable at device %s%s", ErrUnreachable, s.by, cfg.Devices[s.device].title(s.device), reason)
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
