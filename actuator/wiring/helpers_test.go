package wiring_test

import (
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/actuator/wiring"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

func mm2(x float64) wiring.Conductor {
	return wiring.IEC60228(units.Area(x)*units.SquareMillimetre, wiring.Class2)
}

func mustChain(t require.TestingT, cfg wiring.Config) wiring.Chain {
	c, err := wiring.New(cfg)
	require.NoError(t, err)
	return c
}

func at(t require.TestingT, c wiring.Chain, i int) wiring.Terminals {
	d, ok := c.At(i)
	require.True(t, ok)
	return d
}

func transfer(t require.TestingT, c wiring.Chain, i int) wiring.Transfer {
	line, ok := c.Transfer(i)
	require.True(t, ok)
	return line
}

// one is a cable with a single device: 24 V direct, conductors of 10 Ω/km, both ends near.
func one(metres float64, load wiring.Load) wiring.Config {
	return wiring.Config{
		Supply: wiring.Supply{Kind: wiring.Direct, Voltage: 24 * units.Volt},
		Cable:  wiring.Cable{Conductor: wiring.PerLength(10*units.Ohm, units.Kilometre)},
		Signal: signal.Volts(10),
		Devices: []wiring.Device{
			{Length: units.Length(metres) * units.Metre, Load: load},
		},
	}
}
