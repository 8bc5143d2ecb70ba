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

// caseStyle is how a case is drawn: in colours that the colour-blind tell apart, and in
// dashes and marks that prints in black and white do, even where one line lies on
// another.
type caseStyle struct {
	draw.LineStyle
	mark draw.GlyphDrawer
}

var styles = []caseStyle{
	{draw.LineStyle{Color: color.RGBA{0xe6, 0x9f, 0x00, 0xff}, Width: vg.Points(4)}, draw.CircleGlyph{}},
	{draw.LineStyle{Color: color.RGBA{0x00, 0x72, 0xb2, 0xff}, Width: vg.Points(1.6), Dashes: []vg.Length{vg.Points(8), vg.Points(4)}}, draw.BoxGlyph{}},
	{draw.LineStyle{Color: color.RGBA{0xa0, 0x00, 0x50, 0xff}, Width: vg.Points(1.8), Dashes: []vg.Length{vg.Points(2), vg.Points(3)}}, draw.PyramidGlyph{}},
}

// plain is for what all cases share, thin for what is wanted, faint for the grid.
var (
	plain = draw.LineStyle{Color: color.Black, Width: vg.Points(1.6)}
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
		line, err := d.line(thin, p.points(0, p.ideal))
		if err != nil {
			return nil, err
		}
		d.legend.Add("straight line", line)
	}
	if p.shared {
		line, err := d.line(plain, p.points(0, func(x float64) float64 { return p.curve(&cases[0], x) }))
		if err != nil {
			return nil, err
		}
		d.legend.Add(p.name(&cases[0]), line)
		return d, nil
	}
	return d, d.addCases(p, cases)
}

// addCases draws each case in its style, with its least load if the panel has marks.
// What has the same name shares a line of the legend.
func (d *drawing) addCases(p *panel, cases []fitted) error {
	var names []string
	samples := map[string][]plot.Thumbnailer{}
	for i := range cases {
		f, from := &cases[i], 0.0
		if p.from != nil {
			from = p.from(f)
		}
		line, err := d.line(styles[i].LineStyle, p.points(from, func(x float64) float64 { return p.curve(f, x) }))
		if err != nil {
			return err
		}
		name := p.name(f)
		if samples[name] == nil {
			names = append(names, name)
		}
		samples[name] = append(samples[name], line)
		if p.marks {
			mark, err := d.leastLoad(f, styles[i])
			if err != nil {
				return err
			}
			samples[name] = append(samples[name], mark)
		}
	}
	for _, name := range names {
		d.legend.Add(name, samples[name]...)
	}
	return nil
}

// points samples a curve closely enough for the steep beginning, where a valve leaves
// its seat within a hundredth of its travel.
func (p *panel) points(from float64, curve func(x float64) float64) plotter.XYs {
	xy := make(plotter.XYs, 1001)
	for i := range xy {
		x := from + (p.x.max-from)*float64(i)/float64(len(xy)-1)
		xy[i] = plotter.XY{X: x, Y: curve(x)}
	}
	return xy
}

func (d *drawing) line(style draw.LineStyle, xy plotter.XYs) (*plotter.Line, error) {
	line, err := plotter.NewLine(xy)
	if err != nil {
		return nil, err
	}
	line.LineStyle = style
	d.Add(line)
	return line, nil
}

// leastLoad marks the least load of a case.
func (d *drawing) leastLoad(f *fitted, style caseStyle) (*plotter.Scatter, error) {
	mark, err := plotter.NewScatter(plotter.XYs{{X: f.chain.SignalAt(f.least.Opening).Number(), Y: f.least.Heat.In(units.Kilowatt)}})
	if err != nil {
		return nil, err
	}
	mark.GlyphStyle = draw.GlyphStyle{Shape: style.mark, Radius: vg.Points(4), Color: style.Color}
	d.Add(mark)
	return mark, nil
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
	d.legend.Padding, d.legend.ThumbnailWidth = vg.Millimeter, 10*vg.Millimeter
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

// drawOn draws the plot, and the legend in a strip below it.
func (d *drawing) drawOn(c draw.Canvas, strip vg.Length) {
	d.Draw(c)
	below := vg.Rectangle{
		Min: vg.Point{X: c.Min.X, Y: c.Min.Y - strip},
		Max: vg.Point{X: c.Max.X, Y: c.Min.Y},
	}
	d.legend.Draw(draw.Canvas{Canvas: c.Canvas, Rectangle: below})
}
