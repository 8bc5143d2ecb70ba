package main

import (
	"errors"
	"fmt"
	"image/color"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"github.com/indexrun/indexrun/units"
)

const (
	width  = 28 * vg.Centimeter // landscape A4 with margins
	height = 18 * vg.Centimeter
	bins   = 700 // on the time axis, about a pixel each
)

var (
	airLine    = draw.LineStyle{Color: color.Black, Width: vg.Points(0.9)}
	supplyLine = draw.LineStyle{Color: color.RGBA{R: 0x00, G: 0x72, B: 0xb2, A: 0xff}, Width: vg.Points(0.9)}
	limitLine  = draw.LineStyle{Color: color.RGBA{R: 0xd5, G: 0x5e, A: 0xff}, Width: vg.Points(0.9), Dashes: []vg.Length{vg.Points(5), vg.Points(3)}}
	outputLine = draw.LineStyle{Color: color.RGBA{R: 0xe6, G: 0x9f, A: 0xff}, Width: vg.Points(2.4)}
	travelLine = draw.LineStyle{Color: color.RGBA{G: 0x50, B: 0x3c, A: 0xff}, Width: vg.Points(0.9)}
)

// figure shows a part of the day, a column for each case.
type figure struct {
	name       string
	from, to   time.Duration
	withAir    bool // over all columns, the air before the heater
	unit       time.Duration
	tick       float64 // of the time axis, in its unit
	label      string
	travel     float64 // top of the valve's axis, %
	travelTick float64
}

var figures = []figure{
	{"hunting-day", 0, length, true, time.Hour, 6, "Time of day (h)", 100, 25},
	{"hunting-quarter", afternoon, afternoon + 15*time.Minute, false, time.Minute, 5, "Time after 16:00 (min)", 30, 10},
}

// afternoon is the time that the figures look at closely.
const afternoon = 16 * time.Hour

// drawAll writes each figure as SVG and PNG into a folder and says where.
func drawAll(days []*day, folder string, w io.Writer) error {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	fmt.Fprintln(w)
	for _, f := range figures {
		all, err := f.panels(days)
		if err != nil {
			return err
		}
		png := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(150))}
		svg := vgsvg.NewWith(vgsvg.UseWH(width, height), vgsvg.EmbedFonts(true))
		for file, canvas := range map[string]vg.CanvasWriterTo{f.name + ".png": png, f.name + ".svg": svg} {
			all.draw(draw.New(canvas))
			if err := write(filepath.Join(folder, file), canvas); err != nil {
				return err
			}
		}
		fmt.Fprintf(w, "Drawn: %s.svg and .png\n", filepath.Join(folder, f.name))
	}
	return nil
}

// panels are the plots of a figure: what is the same for all cases on top, then rows with a
// column for each.
type panels struct {
	air  *plot.Plot // or nil
	rows [][]*plot.Plot
}

// draw returns where it put the rows.
func (p panels) draw(canvas draw.Canvas) [][]draw.Canvas {
	const pad, share = 3 * vg.Millimeter, 0.24 // of the height, for the air
	if p.air != nil {
		high := share * (canvas.Max.Y - canvas.Min.Y)
		p.air.Draw(draw.Crop(canvas, pad, -2*pad, canvas.Max.Y-canvas.Min.Y-high, -pad))
		canvas = draw.Crop(canvas, 0, 0, 0, -high)
	}
	tiles := draw.Tiles{
		Rows: len(p.rows), Cols: len(p.rows[0]), PadX: 2 * pad, PadY: pad,
		PadTop: pad, PadBottom: pad, PadLeft: pad, PadRight: 2 * pad,
	}
	places := plot.Align(p.rows, tiles, canvas)
	for i, row := range places {
		for k, c := range row {
			p.rows[i][k].Draw(c)
		}
	}
	return places
}

func write(name string, content io.WriterTo) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	_, err = content.WriteTo(file)
	return errors.Join(err, file.Close())
}

// panels are the air before the heater, and rows of supply air and valve.
func (f figure) panels(days []*day) (panels, error) {
	var all panels
	if f.withAir {
		all.air = f.axes("Air before\nthe heater (°C)", 0, 20, 10)
		err := f.add(all.air, "", airLine, func(i int) float64 { return entering(time.Duration(i) * step).Celsius() })
		if err != nil {
			return all, err
		}
	}
	var supplies, valves []*plot.Plot
	for _, d := range days {
		supply := f.axes("Supply air (°C)", 18, 23, 1) // the legend has the top
		valve := f.axes("Valve and output (%)", 0, f.travel, f.travelTick)
		err := errors.Join(
			f.add(supply, "supply air", supplyLine, func(i int) float64 { return d.series.Temperature[i].Celsius() }),
			f.add(supply, "", limitLine, func(int) float64 { return setPoint.Add(-tolerance).Celsius() }),
			f.add(supply, "set point ±"+tolerance.String(), limitLine, func(int) float64 { return setPoint.Add(tolerance).Celsius() }),
			f.add(valve, "controller output", outputLine, func(i int) float64 { return 100 * d.series.Output[i] }),
			f.add(valve, "valve travel", travelLine, func(i int) float64 { return 100 * d.series.Travel[i] }),
		)
		if err != nil {
			return all, err
		}
		supplies, valves = append(supplies, supply), append(valves, valve)
	}
	all.rows = [][]*plot.Plot{supplies, valves}
	for k, d := range days {
		j := d.judged[afternoon/stretch]
		supplies[k].Title.Text = fmt.Sprintf("%s\n%02.0f–%02.0f h: %s, ±%s", d.name,
			j.from.Hours(), j.to.Hours(), verdict(j.swing), j.swing.Amplitude.Fixed(units.Kelvin, 1))
	}
	return all, nil
}

// axes is an empty plot in the figures' style.
func (f figure) axes(label string, least, greatest, tick float64) *plot.Plot {
	p := plot.New()
	p.Y.Label.Text, p.Y.Min, p.Y.Max = label, least, greatest
	p.X.Label.Text, p.X.Min, p.X.Max = f.label, 0, float64(f.to-f.from)/float64(f.unit)
	p.X.Tick.Marker, p.Y.Tick.Marker = ticks(p.X.Min, p.X.Max, f.tick), ticks(least, greatest, tick)
	p.Legend.Top, p.Legend.XOffs, p.Legend.Padding = true, -2*vg.Millimeter, vg.Millimeter
	p.Title.Padding = 2 * vg.Millimeter
	for _, style := range []*draw.TextStyle{
		&p.Title.TextStyle, &p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label, &p.Legend.TextStyle,
	} {
		style.Font.Variant, style.Font.Size = "Sans", vg.Points(9)
	}
	grid := plotter.NewGrid()
	grid.Horizontal.Color, grid.Vertical.Color = color.Gray{Y: 0xd8}, color.Gray{Y: 0xd8}
	p.Add(grid)
	return p
}

func ticks(least, greatest, step float64) plot.ConstantTicks {
	var all plot.ConstantTicks
	for v := least; v <= greatest; v += step {
		all = append(all, plot.Tick{Value: v, Label: strconv.FormatFloat(v, 'g', -1, 64)})
	}
	return all
}

// add draws a value over time. Where a bin holds many values the line goes from the
// least to the greatest of them, so that no swing is lost.
func (f figure) add(p *plot.Plot, name string, style draw.LineStyle, value func(i int) float64) error {
	first, last := int(f.from/step), int(f.to/step)
	bin := max(1, (last-first)/bins)
	var points plotter.XYs
	for i := first; i < last; i += bin {
		least, greatest := value(i), value(i)
		for k := i + 1; k < min(i+bin, last); k++ {
			least, greatest = min(least, value(k)), max(greatest, value(k))
		}
		x := float64(time.Duration(i)*step-f.from) / float64(f.unit)
		points = append(points, plotter.XY{X: x, Y: least})
		if greatest > least {
			points = append(points, plotter.XY{X: x, Y: greatest})
		}
	}
	line, err := plotter.NewLine(points)
	if err != nil {
		return err
	}
	line.LineStyle = style
	p.Add(line)
	if name != "" {
		p.Legend.Add(name, line)
	}
	return nil
}
