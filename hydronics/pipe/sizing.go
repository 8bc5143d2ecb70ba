package pipe

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// ErrNoSize is what the error of [Sizing.Smallest] unwraps to when the largest
// size of the table is too small.
var ErrNoSize = errors.New("no size is large enough")

// SizingConfig says what a pipe must keep to. Common limits in building services
// are 100 … 400 Pa/m and, for noise, 0.5 … 1.5 m/s by size (common practice, no
// published source).
type SizingConfig struct {
	// Sizes is the table to choose from, such as [EN10255Medium].
	Sizes []Size

	// Roughness of the wall: [Material.Roughness].
	Roughness units.Length

	// Density and Viscosity of the fluid at its mean temperature.
	Density   units.Density
	Viscosity units.DynamicViscosity

	// MaxGradient is the greatest friction loss per length and MaxVelocity the
	// greatest mean velocity. Zero sets no limit, one of them is needed.
	MaxGradient units.PressureGradient
	MaxVelocity units.Velocity
}

// A Sizing chooses the smallest size of a table for a flow. It is immutable.
type Sizing struct {
	candidates  []candidate // rising bore
	maxGradient units.PressureGradient
	maxVelocity units.Velocity
}

type candidate struct {
	size     Size
	metre    Pipe
	capacity Capacity
}

// A Capacity is the greatest flow that a size may carry and the limit that sets
// it.
type Capacity struct {
	Size  Size
	Flow  units.Flow
	Limit Limit
}

// A Trial is how a flow goes through a size.
type Trial struct {
	Size     Size
	Velocity units.Velocity
	Gradient units.PressureGradient
	Reynolds float64

	// Exceeds is the limit that the size breaks, the one broken by more (as a
	// ratio) if both are.
	Exceeds Limit
}

// A Choice is the size chosen and why no smaller one would do.
type Choice struct {
	Trial

	// Governs is the limit that decided: the one that the next smaller size
	// breaks; for the smallest size of the table the one it comes closest to.
	Governs Limit

	// Smaller is the next smaller size with what is wrong with it; the zero
	// Trial if the choice is the smallest of the table.
	Smaller Trial
}

// NewSizing checks cfg and prepares the table; the error names every fault.
func NewSizing(cfg SizingConfig) (Sizing, error) {
	l := check.List{Package: "pipe"}
	l.Require(len(cfg.Sizes) > 0, "Sizes", "no size", "at least one size")
	check.NotNegative(&l, "MaxGradient", cfg.MaxGradient)
	check.NotNegative(&l, "MaxVelocity", cfg.MaxVelocity)
	if cfg.MaxGradient == 0 && cfg.MaxVelocity == 0 {
		l.Fault("MaxGradient, MaxVelocity", "neither", "one limit at least")
	}
	check.NotNegative(&l, "Roughness", cfg.Roughness)
	check.Positive(&l, "Density", cfg.Density)
	check.Positive(&l, "Viscosity", cfg.Viscosity)
	for i, size := range cfg.Sizes {
		checkSize(&l, fmt.Sprintf("Sizes[%d]", i), size, cfg.Roughness)
	}
	if err := l.Err(); err != nil {
		return Sizing{}, err
	}
	s := Sizing{maxGradient: cfg.MaxGradient, maxVelocity: cfg.MaxVelocity}
	for _, size := range cfg.Sizes {
		metre, err := New(Config{Length: units.Metre, Bore: size.Bore(), Roughness: cfg.Roughness,
			Density: cfg.Density, Viscosity: cfg.Viscosity})
		if err != nil {
			return Sizing{}, err
		}
		s.candidates = append(s.candidates, candidate{size, metre, s.capacity(size, metre)})
	}
	byBore := func(a, b candidate) int { return cmp.Compare(a.size.Bore(), b.size.Bore()) }
	slices.SortStableFunc(s.candidates, byBore)
	return s, nil
}

func checkSize(l *check.List, field string, size Size, roughness units.Length) {
	check.NotNegative(l, field+".Wall", size.Wall)
	if check.Positive(l, field+".Outside", size.Outside) && check.Positive(l, field+" bore", size.Bore()) {
		if limit := MaxRelativeRoughness * size.Bore(); roughness > limit {
			l.Fault("Roughness", roughness, fmt.Sprintf("%v at most, which is %v of the bore of %s, %v", limit, MaxRelativeRoughness, field, size))
		}
	}
}

// capacity inverts both limits and takes the lower flow.
func (s Sizing) capacity(size Size, metre Pipe) Capacity {
	byVelocity := s.maxVelocity.Flow(units.CircleArea(size.Bore()))
	byGradient := metre.Flow(s.maxGradient.Over(units.Metre))
	if s.maxVelocity > 0 && (s.maxGradient == 0 || byVelocity < byGradient) {
		return Capacity{size, byVelocity, VelocityLimit}
	}
	return Capacity{size, byGradient, GradientLimit}
}

// Capacities returns what each size of the table may carry, by rising bore.
func (s Sizing) Capacities() []Capacity {
	list := make([]Capacity, len(s.candidates))
	for i, c := range s.candidates {
		list[i] = c.capacity
	}
	return list
}

// Smallest returns the smallest size that carries a flow within the limits. The
// flow is above zero. If the largest size is too small, the error unwraps to
// [ErrNoSize] and says what that size may carry.
func (s Sizing) Smallest(q units.Flow) (Choice, error) {
	l := check.List{Package: "pipe"}
	if !check.Positive(&l, "flow", q) {
		return Choice{}, l.Err()
	}
	i := slices.IndexFunc(s.candidates, func(c candidate) bool { return q <= c.capacity.Flow })
	if i < 0 {
		return Choice{}, s.tooSmall(q)
	}
	choice := Choice{Trial: s.try(s.candidates[i], q), Governs: s.candidates[i].capacity.Limit}
	if i > 0 {
		choice.Smaller = s.try(s.candidates[i-1], q)
		choice.Governs = choice.Smaller.Exceeds
	}
	return choice, nil
}

func (s Sizing) tooSmall(q units.Flow) error {
	if len(s.candidates) == 0 {
		return fmt.Errorf("pipe: %w: the table is empty", ErrNoSize)
	}
	largest := s.candidates[len(s.candidates)-1].capacity
	return fmt.Errorf("pipe: %w: %v carries %v at most, limited by the %v, and %v is wanted",
		ErrNoSize, largest.Size, largest.Flow, largest.Limit, q)
}

func (s Sizing) try(c candidate, q units.Flow) Trial {
	t := Trial{Size: c.size, Velocity: c.metre.Velocity(q), Gradient: c.metre.Gradient(q), Reynolds: c.metre.Reynolds(q)}
	if q > c.capacity.Flow {
		t.Exceeds = s.worse(t)
	}
	return t
}

// worse returns the limit of which a trial takes the greater share.
func (s Sizing) worse(t Trial) Limit {
	if s.maxVelocity > 0 && (s.maxGradient == 0 || float64(t.Velocity/s.maxVelocity) > float64(t.Gradient/s.maxGradient)) {
		return VelocityLimit
	}
	return GradientLimit
}

// Explain says in a sentence which limit decided a choice and what was wrong
// with the next smaller size.
func (s Sizing) Explain(c Choice) string {
	if c.Smaller == (Trial{}) {
		return fmt.Sprintf("%v is the smallest size of the table; its limit is the %v", c.Size, c.Governs)
	}
	if c.Governs == VelocityLimit {
		return fmt.Sprintf("%v would have %s, above %s", c.Smaller.Size,
			c.Smaller.Velocity.Fixed(units.MetrePerSecond, 2), s.maxVelocity.Fixed(units.MetrePerSecond, 2))
	}
	return fmt.Sprintf("%v would lose %s, above %s", c.Smaller.Size,
		c.Smaller.Gradient.Fixed(units.PascalPerMetre, 0), s.maxGradient.Fixed(units.PascalPerMetre, 0))
}
