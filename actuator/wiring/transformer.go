package wiring

import (
	"fmt"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// TransformerConfig describes what a transformer must feed.
type TransformerConfig struct {
	// Loads are the apparent powers of all loads, as their data sheets state them for
	// the sizing of a transformer.
	Loads []ApparentPower
	// Spare is the share to add for later; 0 = none. 25 % is common practice.
	Spare units.Ratio `json:",omitzero"`
	// Series are the sizes to be had, rising; empty = the R10 series of preferred numbers
	// (ISO 3) from 10 VA to 1 kVA. What is sold differs by country: state it.
	Series []ApparentPower `json:",omitempty"`
}

// r10 is the R10 series of ISO 3 over two decades.
var r10 = [...]ApparentPower{10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000}

// Transformer is a size chosen by [NewTransformer].
type Transformer struct {
	Load      ApparentPower // the sum of the loads
	WithSpare ApparentPower // with the share for later
	Size      ApparentPower // the next size of the series
	Use       units.Ratio   // Load over Size
}

// NewTransformer adds the loads, arithmetically, which is on the safe side, adds the spare
// and takes the next size of the series. If the series ends before, the error unwraps to
// [ErrUnreachable]: divide the loads among several. Codes limit the power of a circuit of
// their easier class, to 100 VA in North America (NEC article 725, from memory).
func NewTransformer(cfg TransformerConfig) (Transformer, error) {
	series := cfg.Series
	if len(series) == 0 {
		series = r10[:]
	}
	if err := cfg.validate(series); err != nil {
		return Transformer{}, err
	}
	var t Transformer
	for _, s := range cfg.Loads {
		t.Load += s
	}
	t.WithSpare = t.Load * ApparentPower(1+cfg.Spare)
	i := slices.IndexFunc(series, func(s ApparentPower) bool { return s >= t.WithSpare*(1-1e-12) })
	if i < 0 {
		return Transformer{}, fmt.Errorf("%w: %v with spare, the series ends at %v", ErrUnreachable, t.WithSpare, series[len(series)-1])
	}
	t.Size = series[i]
	t.Use = units.Ratio(t.Load / t.Size)
	return t, nil
}

func (c TransformerConfig) validate(series []ApparentPower) error {
	l := check.List{Package: packageName}
	l.Require(len(c.Loads) > 0, "Loads", "none", "at least one load")
	for i, s := range c.Loads {
		check.NotNegative(&l, fmt.Sprintf("Loads[%d]", i), s)
	}
	check.Within(&l, "Spare", c.Spare, 0, 10*units.One)
	for i, s := range series {
		if check.Positive(&l, fmt.Sprintf("Series[%d]", i), s) && i > 0 {
			l.Require(s > series[i-1], fmt.Sprintf("Series[%d]", i), s, "more than the size before")
		}
	}
	return l.Err()
}
