package main

import (
	"fmt"
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/indexrun/indexrun/units"
)

// The styles of the cases, which print in black and white keeps apart even where
// one lies on another.
var styles = []draw.LineStyle{
	{Color: color.Gray{Y: 0x98}, Width: vg.Points(3.5)},
	{Color: color.Black, Width: vg.Points(1.2), Dashes: []vg.Length{vg.Points(8), vg.Points(4)}},
	{Color: color.Black, Width: vg.Points(1.3), Dashes: []vg.Length{vg.Points(1.5), vg.Points(3)}},
}

// thin is for what is wanted, faint for the grid.
var (
	thin  = draw.LineStyle{Color: color.Black, Width: vg.Points(0.5)}
	faint = draw.LineStyle{Color: color.Gray{Y: 0xc8}, Width: vg.Points(0.4)}
)

// drawing is a plot with a legend to go below it.
type drawing struct {
	*plot.Plot
	legend plot.Legend
}

// drawing draws the curves of the cases.
func (p *panel) drawing(cases []fitted) (*drawing, error) {
	d := p.axes()
	if p.ideal != nil {
		if err := d.add("straight line", thin, p.line(0, p.ideal)); err != nil {
			return nil, err
		}
	}
	drawn := map[string]bool{}
	for i := range cases {
		f := &cases[i]
		name, from := p.name(f), 0.0
		if drawn[name] {
			continue
		}
		drawn[name] = true
		if p.from != nil {
			from = p.from(f)
		}
		if err := d.add(name, styles[i], p.line(from, func(x float64) float64 { return p.curve(f, x) })); err != nil {
			return nil, err
		}
	}
	if p.marks {
		return d, d.addLeastLoads(cases)
	}
	return d, nil
}

// line samples a curve closely enough for the steep beginning, where a valve leaves
// its seat within a hundredth of its travel.
func (p *panel) line(from float64, curve func(x float64) float64) plotter.XYs {
	xy := make(plotter.XYs, 1001)
	for i := range xy {
		x := from + (p.x.max-from)*float64(i)/float64(len(xy)-1)
		xy[i] = plotter.XY{X: x, Y: curve(x)}
	}
	return xy
}

func (d *drawing) add(name string, style draw.LineStyle, xy plotter.XYs) error {
	line, err := plotter.NewLine(xy)
	if err != nil {
		return err
	}
	line.LineStyle = style
	d.Add(line)
	d.legend.Add(name, line)
	return nil
}

// addLeastLoads marks the least load of each case.
func (d *drawing) addLeastLoads(cases []fitted) error {
	var xy plotter.XYs
	for _, f := range cases {
		xy = append(xy, plotter.XY{X: f.chain.SignalAt(f.least.Opening).Number(), Y: f.least.Heat.In(units.Kilowatt)})
	}
	marks, err := plotter.NewScatter(xy)
	if err != nil {
		return err
	}
	marks.GlyphStyle = draw.GlyphStyle{Shape: draw.RingGlyph{}, Radius: vg.Points(4), Color: color.Black}
	d.Add(marks)
	d.legend.Add("least load controlled", marks)
	return nil
}

// axes is an empty drawing.
func (p *panel) axes() *drawing {
	d := &drawing{Plot: plot.New(), legend: plot.NewLegend()}
	d.Title.Text, d.X.Label.Text, d.Y.Label.Text = p.title, p.x.label, p.y.label
	d.Title.Padding = 2 * vg.Millimeter
	d.X.Min, d.X.Max, d.Y.Min, d.Y.Max = 0, p.x.max, 0, p.y.max
	d.X.Padding, d.Y.Padding = 0, 0
	d.X.Tick.Marker, d.Y.Tick.Marker = p.x.ticks(), p.y.ticks()
	d.legend.Top, d.legend.Left = true, true
	d.legend.Padding, d.legend.ThumbnailWidth = vg.Millimeter, 12*vg.Millimeter
	for _, style := range []*draw.TextStyle{
		&d.Title.TextStyle, &d.X.Label.TextStyle, &d.Y.Label.TextStyle, &d.X.Tick.Label, &d.Y.Tick.Label, &d.legend.TextStyle,
	} {
		style.Font.Variant, style.Font.Size = "Sans", vg.Points(10)
	}
	grid := plotter.NewGrid()
	grid.Horizontal, grid.Vertical = faint, faint
	d.Add(grid)
	return d
}

func (a axis) ticks() plot.ConstantTicks {
	var ticks plot.ConstantTicks
	for i := 0; float64(i)*a.tick <= a.max; i++ {
		x := float64(i) * a.tick
		ticks = append(ticks, plot.Tick{Value: x, Label: fmt.Sprint(x)})
	}
	return ticks
}

// legendHeight is what the legend needs on a canvas.
func (d *drawing) legendHeight(c draw.Canvas) vg.Length { return d.legend.Rectangle(c).Size().Y }

// drawOn draws the plot, and the legend in a strip below it, from where the plot's
// axis begins.
func (d *drawing) drawOn(c draw.Canvas, strip vg.Length) {
	d.Draw(c)
	below := vg.Rectangle{
		Min: vg.Point{X: d.DataCanvas(c).Min.X, Y: c.Min.Y - strip},
		Max: vg.Point{X: c.Max.X, Y: c.Min.Y},
	}
	d.legend.Draw(draw.Canvas{Canvas: c.Canvas, Rectangle: below})
}
