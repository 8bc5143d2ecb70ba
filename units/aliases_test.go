package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Text is folded before it is looked for among the aliases, so one that is not would
// never be found; and no spelling may stand for two units.
func TestAliasesAreFolded(t *testing.T) {
	for _, table := range tables {
		seen := map[string]string{}
		for i := range table.units {
			d := &table.units[i]
			for _, alias := range append([]string{plainSpelling.Replace(d.symbol)}, d.aliases...) {
				assert.Equal(t, plainSpelling.Replace(alias), alias, "%s of %s", alias, d.symbol)
				assert.Empty(t, seen[alias], "%s is %s too", alias, d.symbol)
				seen[alias] = d.symbol
			}
		}
	}
}
