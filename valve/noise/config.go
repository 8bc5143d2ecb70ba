package noise

import (
	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve/sizing"
)

// A Config describes a valve in its pipe. Case, Kv and Pipe.Wall must be given;
// for the rest, zero means the stated default.
type Config struct {
	// Case is the liquid, the pressures and the valve, with FL, Fd and XFz at the
	// travel in question. XFz counts most of all; zero means the standard's
	// estimate. The outlet must be above the vapour pressure.
	Case sizing.Case
	// Kv at the travel in question.
	Kv units.FlowCoefficient
	// Flow; default what [sizing.Flow] gives for Kv and Case.
	Flow units.Flow
	// SeatDiameter do of the valve; default the valve's nominal size.
	SeatDiameter units.Length
	// LiquidSound is the speed of sound in the liquid; default 1480 m/s, that of
	// water at 20 °C (1482 m/s by IAPWS-95).
	LiquidSound units.Velocity
	Pipe        Pipe
	Air         Air
	// EfficiencyExponent An: a share 10^An of the jet's power, times its Mach
	// number, becomes sound. Default −4.6, for globe valves; −4.3 for butterfly
	// valves, −4.0 for expanders (IEC 60534-8-4:2015, from memory).
	EfficiencyExponent float64
}

// A Pipe is the pipe behind the valve.
type Pipe struct {
	// InsideDiameter Di; default the case's outlet pipe.
	InsideDiameter units.Length
	// Wall is the thickness of the wall. It has no default: half the wall is 3 dB
	// more.
	Wall units.Length
	// Density of the wall; default 7800 kg/m³, steel.
	Density units.Density
	// Sound is the speed of sound in the wall; default 5000 m/s, steel.
	Sound units.Velocity
}

// Air is what surrounds the pipe.
type Air struct {
	// Density; default 1.2 kg/m³, at 20 °C.
	Density units.Density
	// Sound is the speed of sound; default 343 m/s, at 20 °C.
	Sound units.Velocity
}

// withDefaults returns the configuration with every default filled in but Flow.
func (c Config) withDefaults() Config {
	c.SeatDiameter = or(c.SeatDiameter, c.Case.Valve.Diameter)
	c.LiquidSound = or(c.LiquidSound, 1480*units.MetrePerSecond)
	c.Pipe.InsideDiameter = or(c.Pipe.InsideDiameter, or(c.Case.OutletPipe, c.Case.Valve.Diameter))
	c.Pipe.Density = or(c.Pipe.Density, 7800*units.KilogramPerCubicMetre)
	c.Pipe.Sound = or(c.Pipe.Sound, 5000*units.MetrePerSecond)
	c.Air.Density = or(c.Air.Density, 1.2*units.KilogramPerCubicMetre)
	c.Air.Sound = or(c.Air.Sound, 343*units.MetrePerSecond)
	c.EfficiencyExponent = or(c.EfficiencyExponent, -4.6)
	return c
}

func or[Q ~float64](v, standard Q) Q {
	if v == 0 {
		return standard
	}
	return v
}

// check reports every fault of a configuration before its defaults are filled in,
// but those of Case and Kv, which package sizing finds.
func (c *Config) check() error {
	l := check.List{Package: "noise"}
	check.NotNegative(&l, "Flow", c.Flow)
	check.NotNegative(&l, "SeatDiameter", c.SeatDiameter)
	check.NotNegative(&l, "LiquidSound", c.LiquidSound)
	check.NotNegative(&l, "Pipe.InsideDiameter", c.Pipe.InsideDiameter)
	check.Positive(&l, "Pipe.Wall", c.Pipe.Wall)
	check.NotNegative(&l, "Pipe.Density", c.Pipe.Density)
	check.NotNegative(&l, "Pipe.Sound", c.Pipe.Sound)
	check.NotNegative(&l, "Air.Density", c.Air.Density)
	check.NotNegative(&l, "Air.Sound", c.Air.Sound)
	if c.EfficiencyExponent != 0 {
		check.Within(&l, "EfficiencyExponent", c.EfficiencyExponent, -8, -2)
	}
	if pv := c.Case.Liquid.VapourPressure; !c.Case.Outlet.IsZero() && c.Case.Outlet.Compare(pv) <= 0 {
		l.Fault("Case.Outlet", c.Case.Outlet, "above the vapour pressure, "+pv.String()+": the standard does not cover flashing")
	}
	return l.Err()
}
