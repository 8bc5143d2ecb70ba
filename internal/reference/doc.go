// Package reference holds results recorded from sources outside the project:
// standards' tables and worked examples, and the output of general-purpose
// libraries. Tests compare the models with them.
//
// Each file of data/ is one table and says in its header what law it is about,
// where the values come from and which script of gen/ makes it. README.md
// describes the format and how to remake everything.
//
//	c := reference.Compare(t, "water")
//	for row := range c.Rows() {
//		c.Check(row, "rho_kg_m3", density(row.Float("T_K"), row.Float("p_Pa")))
//	}
//	c.Require(1e-12)
//
// What the comparisons find becomes a table of laws by internal/lawtable, the
// only importer but tests.
//
// # Live comparison
//
// If the environment variable INDEXRUN_REFERENCE holds the absolute path of a
// folder, a table found there (water.csv for "water") takes the place of the
// recorded one. The same tests then run on fresh random points:
//
//	/usr/bin/python3 internal/reference/gen/water.py --seed 7 --count 10000 > $dir/water.csv
//	INDEXRUN_REFERENCE=$dir go test ./...
package reference
