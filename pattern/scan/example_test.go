package scan_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/scan"
)

// A black rectangle of 60 by 40 pixels on a white sheet, scanned at 254 dpi: ten pixels to the millimetre.
func ExampleRead() {
	sheet := image.NewGray(image.Rect(0, 0, 120, 80))
	draw.Draw(sheet, sheet.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(sheet, image.Rect(30, 20, 90, 60), image.NewUniform(color.Black), image.Point{}, draw.Src)
	var file bytes.Buffer
	if err := png.Encode(&file, sheet); err != nil {
		fmt.Println(err)
		return
	}

	r, err := scan.Read(file.Bytes(), "scan.png", outline.Options{DPI: 254})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d piece, %.1f mm², level %.2f\n", len(r.Pieces), geometry.Area(r.Pieces[0].Outline), r.Level)
	// Output: 1 piece, 24.0 mm², level 0.50
}
