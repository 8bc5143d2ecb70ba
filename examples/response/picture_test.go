package main

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

func readPNG(t *testing.T, name string) image.Image {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	picture, err := png.Decode(file)
	require.NoError(t, err)
	return picture
}

// checkPicture wants every curve of some panels where its numbers put it, in its
// colour: most of its points have ink of that colour within reach, though dashes leave
// gaps and later curves cover it.
func checkPicture(t *testing.T, name string, u *unit, rows [][]panel, width, height vg.Length) {
	picture := readPNG(t, name)
	size := picture.Bounds()
	require.InDelta(t, width.Dots(dotsPerInch), size.Dx(), 1, name)
	require.InDelta(t, height.Dots(dotsPerInch), size.Dy(), 1, name)
	drawings := make([][]*drawing, len(rows))
	for i, row := range rows {
		for k := range row {
			d, err := row[k].drawing(u.cases)
			require.NoError(t, err)
			drawings[i] = append(drawings[i], d)
		}
	}
	canvases, _ := layout(drawings, draw.New(vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dotsPerInch))))
	for i, row := range rows {
		for k := range row {
			p, d := &row[k], drawings[i][k]
			area := d.DataCanvas(canvases[i][k])
			toX, toY := d.Transforms(&area)
			pixel := func(x, y float64) image.Point {
				return image.Pt(int(toX(x).Dots(dotsPerInch)), size.Dy()-int(toY(y).Dots(dotsPerInch)))
			}
			assert.True(t, pixel(0, 0).In(size) && pixel(p.x.max, p.y.max).In(size), "%s: %s", name, p.file)
			for n := range u.cases {
				want := styles[n].Color
				if p.shared {
					want = color.Black
				}
				assert.Greater(t, inkAlong(picture, p, &u.cases[n], pixel, want), 0.6, "%s: %s, case %d", name, p.file, n)
				if p.marks {
					f := &u.cases[n]
					x, y := f.chain.SignalAt(f.least.Opening).Number(), float64(f.least.Heat)/1000
					assert.True(t, hasInk(picture, pixel(x, y), styles[n].Color), "%s: the least load of case %d", name, n)
				}
			}
		}
	}
}

// inkAlong is the share of the points of a curve that have its colour near.
func inkAlong(picture image.Image, p *panel, f *fitted, pixel func(x, y float64) image.Point, want color.Color) float64 {
	const points = 200
	from, hits := 0.0, 0
	if p.from != nil {
		from = p.from(f)
	}
	for i := range points {
		x := from + (p.x.max-from)*(float64(i)+0.5)/points
		if hasInk(picture, pixel(x, p.curve(f, x)), want) {
			hits++
		}
	}
	return float64(hits) / points
}

// hasInk looks for a colour within a point's reach, 3 pixels or half a millimetre.
func hasInk(picture image.Image, at image.Point, want color.Color) bool {
	const reach, off = 3, 0x3000 // the rims of lines are mixed with what is below
	r, g, b, _ := want.RGBA()
	near := func(a, b uint32) bool { return max(a, b)-min(a, b) < off }
	for y := at.Y - reach; y <= at.Y+reach; y++ {
		for x := at.X - reach; x <= at.X+reach; x++ {
			pr, pg, pb, _ := picture.At(x, y).RGBA()
			if near(pr, r) && near(pg, g) && near(pb, b) {
				return true
			}
		}
	}
	return false
}

// A picture with the curves of another panel is found out.
func TestPicturesAreToldApart(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing takes long under the race detector")
	}
	u, err := newUnit()
	require.NoError(t, err)
	panels := u.panels()
	shapings, inherent := panels[0], panels[1]
	d, err := inherent.drawing(u.cases)
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "inherent")
	require.NoError(t, save(name, [][]*drawing{{d}}, panelWidth, panelHeight))
	picture := readPNG(t, name+".png")
	canvases, _ := layout([][]*drawing{{d}}, draw.New(vgimg.NewWith(vgimg.UseWH(panelWidth, panelHeight), vgimg.UseDPI(dotsPerInch))))
	area := d.DataCanvas(canvases[0][0])
	toX, toY := d.Transforms(&area)
	pixel := func(x, y float64) image.Point {
		return image.Pt(int(toX(x).Dots(dotsPerInch)), picture.Bounds().Dy()-int(toY(y).Dots(dotsPerInch)))
	}
	assert.Greater(t, inkAlong(picture, &inherent, &u.cases[0], pixel, styles[0].Color), 0.9)
	assert.Less(t, inkAlong(picture, &shapings, &u.cases[0], pixel, styles[0].Color), 0.2)
	assert.Less(t, inkAlong(picture, &inherent, &u.cases[0], pixel, color.RGBA{0, 0xff, 0, 0xff}), 0.01)
}

// The texts are legible in print: 10 points on a page that fits A4, and each legend fits
// below its panel.
func TestPageIsLegible(t *testing.T) {
	u, err := newUnit()
	require.NoError(t, err)
	assert.LessOrEqual(t, float64(pageWidth), float64(21*vg.Centimeter))
	assert.LessOrEqual(t, float64(pageHeight), float64(29.7*vg.Centimeter))
	var all []*drawing
	for _, p := range u.panels() {
		d, err := p.drawing(u.cases)
		require.NoError(t, err)
		for _, size := range []vg.Length{d.Title.TextStyle.Font.Size, d.X.Label.TextStyle.Font.Size, d.Y.Tick.Label.Font.Size, d.legend.TextStyle.Font.Size} {
			assert.GreaterOrEqual(t, size.Points(), 9.0)
		}
		all = append(all, d)
	}
	page := draw.New(vgimg.NewWith(vgimg.UseWH(pageWidth, pageHeight), vgimg.UseDPI(dotsPerInch)))
	canvases, strip := layout([][]*drawing{all[:2], all[2:4], all[4:]}, page)
	for i, d := range all {
		c := canvases[i/2][i%2]
		legend := d.legend.Rectangle(c).Size()
		assert.LessOrEqual(t, float64(legend.X), float64(c.Max.X-c.Min.X), d.Title.Text)
		assert.LessOrEqual(t, float64(legend.Y), float64(strip), d.Title.Text)
		assert.LessOrEqual(t, float64(d.Title.TextStyle.Width(d.Title.Text)), float64(c.Max.X-c.Min.X), d.Title.Text)
	}
}
