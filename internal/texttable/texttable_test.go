package texttable_test

import (
	"os"

	"github.com/indexrun/indexrun/internal/texttable"
)

func Example() {
	t := texttable.New("Unit", ">Flow", "Note")
	t.Row("FC-1", "0.120 l/s", "µ")
	t.Row("FC-10", "12.000 l/s")
	t.Row("", "–", "last", "dropped")
	t.WriteTo(os.Stdout)
	// Output:
	// Unit         Flow  Note
	// FC-1    0.120 l/s  µ
	// FC-10  12.000 l/s
	//                 –  last
}
