package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Sizes are those of the print, in which the text has 10 points: all panels fill an A4
// page within 1 cm.
const (
	dotsPerInch             = 150
	panelWidth, panelHeight = 14 * vg.Centimeter, 11 * vg.Centimeter
	pageWidth, pageHeight   = 19 * vg.Centimeter, 27.7 * vg.Centimeter
)

// draw writes each panel, and all of them on a page, as SVG and PNG into a folder,
// and says where.
func (u *unit) draw(folder string, w io.Writer) error {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	var all []*drawing
	var names []string
	for _, p := range u.panels() {
		d, err := p.drawing(u.cases)
		if err != nil {
			return err
		}
		if err := save(filepath.Join(folder, p.file), [][]*drawing{{d}}, panelWidth, panelHeight); err != nil {
			return err
		}
		all, names = append(all, d), append(names, p.file)
	}
	if err := save(filepath.Join(folder, "response"), [][]*drawing{all[:2], all[2:4], all[4:]}, pageWidth, pageHeight); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "\nDrawn in %s, as SVG and PNG: %s, and response with all of them on an A4 page\n", folder, strings.Join(names, ", "))
	return err
}

// save writes rows of drawings under a name as SVG and PNG.
func save(name string, rows [][]*drawing, width, height vg.Length) error {
	svg := vgsvg.NewWith(vgsvg.UseWH(width, height), vgsvg.EmbedFonts(true))
	png := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dotsPerInch))}
	tile(rows, draw.New(svg))
	tile(rows, draw.New(png))
	return errors.Join(write(name+".svg", svg), write(name+".png", png))
}

const pad = 4 * vg.Millimeter

// tile lays the drawings out and draws them.
func tile(rows [][]*drawing, canvas draw.Canvas) {
	canvases, strip := layout(rows, canvas)
	for i, row := range canvases {
		for k, c := range row {
			rows[i][k].drawOn(c, strip)
		}
	}
}

// layout gives each drawing its canvas, their axes aligned, with a strip below each
// that has room for the tallest legend.
func layout(rows [][]*drawing, canvas draw.Canvas) (canvases [][]draw.Canvas, strip vg.Length) {
	plots := make([][]*plot.Plot, len(rows))
	for i, row := range rows {
		for _, d := range row {
			plots[i] = append(plots[i], d.Plot)
			strip = max(strip, d.legendHeight(canvas))
		}
	}
	strip += pad
	tiles := draw.Tiles{
		Rows: len(rows), Cols: len(rows[0]), PadX: 2 * pad, PadY: pad + strip,
		PadTop: pad, PadBottom: pad/2 + strip, PadLeft: pad, PadRight: pad,
	}
	return plot.Align(plots, tiles, canvas), strip - pad/2
}

func write(name string, content io.WriterTo) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	_, err = content.WriteTo(file)
	return errors.Join(err, file.Close())
}
