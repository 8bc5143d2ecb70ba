package schedule

import (
	"cmp"
	"math"
	"slices"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/hydronics"
	"github.com/indexrun/indexrun/units"
	"github.com/indexrun/indexrun/valve"
)

// picker finds pairs for one row after another. It keeps what can be used again
// and belongs to one goroutine.
type picker struct {
	stock      *stock
	outcomes   outcomeCache
	candidates []candidate
	order      []*candidate // of the row at hand, best first
	trial      driveChoice  // being weighed
	lifted     map[liftedAt]stockValve
	inputs     map[inputKey][]input
}

// candidate is a valve with the actuator that suits it best.
type candidate struct {
	valve    *stockValve
	fit      valveFit
	found    findings // against the valve
	drive    driveChoice
	size     units.Flow // at the pressure there is: what makes a valve larger
	position int        // in the catalogue
	viscous  bool       // viscosity has been looked into
}

func (c *candidate) weight() int { return c.found.weight + c.drive.found.weight }

// runnersUp bounds how many rejected valves are reported.
const runnersUp = 3

func newPicker(s *stock) *picker {
	return &picker{stock: s, outcomes: outcomeCache{}, lifted: map[liftedAt]stockValve{}, inputs: map[inputKey][]input{}, candidates: make([]candidate, len(s.valves))}
}

// pick fills in the plan of one unit.
func (p *picker) pick(r *Row, u *Unit) error {
	u.Row = *r
	n, err := newNeed(r, u)
	if err != nil {
		return err
	}
	n.inputs = p.inputsOf(r)
	list, err := p.judgeAll(&n)
	if err != nil {
		return err
	}
	if len(list) == 0 {
		u.Warnings = append(slices.Clone(n.rowFinds.list), Finding{NoValve, Value{}, textOf(r.Kind)})
		u.Valve.Has = n.has
		return nil
	}
	set, err := list[0].valve.set(&n, &list[0].fit)
	if err != nil {
		return err
	}
	list[0].valve.model.judgeNoise(&n, &list[0].fit, &list[0].found)
	u.choose(&n, list, set)
	return u.expect(&n, &list[0].drive, set)
}

// byWeight puts the best candidate first.
func byWeight(a, b *candidate) int {
	return cmp.Or(cmp.Compare(a.weight(), b.weight()), cmp.Compare(a.size, b.size), cmp.Compare(a.position, b.position))
}

// judgeAll weighs the valves of the wanted kind, each with the actuator that suits
// it best, and puts the best few first. Valves that cannot be among those keep no
// actuator.
func (p *picker) judgeAll(n *need) ([]*candidate, error) {
	list, err := p.judgeValves(n)
	if err != nil {
		return nil, err
	}
	if len(list) == 0 {
		return nil, nil
	}
	slices.SortFunc(list, byWeight)
	for weighed := 0; ; {
		if weighed, err = p.weighDrives(n, list, weighed); err != nil {
			return nil, err
		}
		slices.SortFunc(list[:weighed], byWeight)
		if list[0].viscous {
			return list, nil
		}
		if err := list[0].judgeViscous(n); err != nil { // it may fall behind
			return nil, err
		}
		slices.SortFunc(list[:weighed], byWeight)
	}
}

// weighDrives finds the actuators of further valves of a list that is in order of the
// valves' own weights, as long as one may still be among the best few. It returns
// for how many that is done.
func (p *picker) weighDrives(n *need, list []*candidate, weighed int) (int, error) {
	best := math.MaxInt
	for i, c := range list {
		switch {
		case i < weighed:
		case i > runnersUp && c.found.weight > best:
			return i, nil
		default:
			if err := p.bestDrive(n, c); err != nil {
				return i, err
			}
		}
		best = min(best, c.weight())
	}
	return len(list), nil
}

// judgeValves weighs the valves alone.
func (p *picker) judgeValves(n *need) ([]*candidate, error) {
	list := p.order[:0]
	for i := range p.stock.valves {
		v := &p.stock.valves[i]
		if n.row.Kind != AnyKind && v.model.Kind != n.row.Kind {
			continue
		}
		c := &p.candidates[i]
		list = append(list, c)
		c.valve, c.position, c.drive.actuator, c.viscous = v, i, nil, false
		c.found.reset()
		c.drive.found.reset()
		fit, err := v.judge(n, &c.found)
		if err != nil {
			return nil, err
		}
		c.fit, c.size = fit, c.sizeAt(n.has)
	}
	p.order = list
	return list, nil
}

// sizeAt is the flow of the open valve at its highest setting.
func (c *candidate) sizeAt(dp units.Pressure) units.Flow {
	if set, ok := c.valve.valve.(valve.PressureIndependent); ok {
		_, greatest := set.FlowRange()
		return greatest
	}
	return c.valve.valve.GreatestFlow(max(dp, units.Kilopascal))
}

// choose records the best candidate and the next ones.
func (u *Unit) choose(n *need, list []*candidate, set valve.Valve) {
	best := list[0]
	u.Valve = ValveChoice{
		Model: best.valve.model, Mark: best.fit.mark, SetFlow: best.fit.flow, Kvs: best.valve.model.Kvs,
		Needs: best.fit.needs, Has: n.has, Margin: n.has - best.fit.needs, Reason: best.reason(n, len(list)),
	}
	u.Valve.judgeBranch(n, set)
	u.Actuator = best.drive.choice(n)
	u.tell(n, best, list[1:min(len(list), runnersUp+1)])
}

// tell copies what was found of the best candidate and of the next ones. All of it
// goes into one array: a large schedule is made of findings for the most part.
func (u *Unit) tell(n *need, best *candidate, next []*candidate) {
	count := len(n.rowFinds.list) + best.findings() + 2 // judgeFlow may add as many
	for _, c := range next {
		count += c.findings() + 1
	}
	room := make([]Finding, 0, count)
	u.Valve.RunnersUp = make([]RunnerUp, len(next))
	for i, c := range next {
		from := len(room)
		room = c.tellAgainst(best, room)
		u.Valve.RunnersUp[i] = RunnerUp{Model: c.valve.model, Findings: slices.Clip(room[from:])}
	}
	from := len(room)
	room = append(append(append(room, n.rowFinds.list...), best.found.list...), best.drive.found.list...)
	u.Warnings = room[from:]
}

// tellAgainst appends what is to be said against a valve that was not taken, with what
// set it behind the best one first.
func (c *candidate) tellAgainst(best *candidate, to []Finding) []Finding {
	from := len(to)
	kind, behind := Later, 0
	if c.size > best.size {
		kind = Larger
	}
	to = append(append(to, c.found.list...), c.drive.found.list...)
	for _, f := range to[from:] {
		if more := c.of(f.Kind) - best.of(f.Kind); more > behind {
			kind, behind = f.Kind, more
		}
	}
	if behind == 0 {
		to = append(to, Finding{Kind: kind})
	}
	first := from + slices.IndexFunc(to[from:], func(f Finding) bool { return f.Kind == kind })
	decisive := to[first]
	copy(to[from+1:first+1], to[from:first])
	to[from] = decisive
	return to
}

// of is the weight of the findings of one kind against the pair.
func (c *candidate) of(kind FindingKind) int { return c.found.of(kind) + c.drive.found.of(kind) }

func (c *candidate) findings() int { return len(c.found.list) + len(c.drive.found.list) }

// judgeBranch works out the authority of a two-way valve in its branch and what a
// balancing valve must take.
func (c *ValveChoice) judgeBranch(n *need, set valve.Valve) {
	two, ok := set.(valve.TwoWay)
	if !ok {
		return
	}
	c.Throttle = max(0, c.Margin)
	if n.row.Available == 0 {
		return
	}
	authority, err := two.Authority(valve.Branch{Flow: n.flow, Drop: n.row.BranchDrop, Available: n.row.Available})
	c.Authority, c.AuthorityKnown = authority, err == nil && c.Margin >= 0
}

// reason says why the best candidate was taken.
func (c *candidate) reason(n *need, of int) Reason {
	pattern := "least against it, then smallest, of {3}"
	if of == 1 {
		pattern = "the only one of its kind"
	}
	if c.valve.model.Kind.independent() {
		pattern += ": set to {0} it needs {1} of the {2} there"
	} else {
		pattern += ": open it takes {1} of the {2} there at {0}"
	}
	return Reason{pattern, [5]Value{flowOf(n.flow), pressureOf(c.fit.needs), pressureOf(n.has), countOf(of)}}
}

func (u *Unit) expect(n *need, drive *driveChoice, set valve.Valve) error {
	if drive.actuator == nil || !drive.pair.endFit || drive.pair.weak {
		return nil
	}
	act, err := actuator.New(drive.config)
	if err != nil {
		return err
	}
	chain, err := hydronics.NewChain(act, set)
	if err != nil {
		return err
	}
	chain, err = chain.InBranch(u.rest(n))
	if err != nil {
		return err
	}
	u.Expected = expectations(n, drive, &chain)
	u.judgeFlow(n)
	return nil
}

// rest is the resistance in series with the valve: the branch as designed, with a
// balancing valve set to take what is left over a two-way valve.
func (u *Unit) rest(n *need) hydronics.Resistance {
	drop := n.row.BranchDrop + u.Valve.Throttle
	return hydronics.Resistance(float64(drop) / (float64(n.flow) * float64(n.flow)))
}

// judgeFlow compares the greatest flow with the design, and sees whether any output
// closes the valve. Where the actuator holds, the finding about its range says so.
func (u *Unit) judgeFlow(n *need) {
	greatest, least, held := units.Flow(0), &u.Expected[0], false
	for i := range u.Expected {
		e := &u.Expected[i]
		greatest, held = max(greatest, e.Flow), held || e.Held
		if e.Travel < least.Travel {
			least = e
		}
	}
	if !(held && greatest == 0) && math.Abs(float64(greatest/n.flow-1)) > float64(n.tolerance()) {
		u.Warnings = append(u.Warnings, Finding{OutsideTolerance, flowOf(greatest), flowOf(n.flow)})
	}
	if !held && least.Travel > limitTolerance {
		u.Warnings = append(u.Warnings, Finding{NeverCloses, flowOf(least.Flow), shareOf(least.Travel)})
	}
}
