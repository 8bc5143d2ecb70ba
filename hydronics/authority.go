package hydronics

import (
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// CircuitAuthority returns both authorities of a two-way valve in a circuit whose
// other parts, balancing valves included, have the resistance rest: that of the
// fully open flow and that of the design flow, see [valve.Authority]. available is
// the pressure difference held over the whole circuit; zero means just what the
// circuit needs at the design flow.
func CircuitAuthority(v valve.TwoWay, rest Resistance, design units.Flow, available units.Pressure) (valve.Authority, error) {
	return v.Authority(valve.Branch{Flow: design, Drop: rest.Pressure(design), Available: available})
}
