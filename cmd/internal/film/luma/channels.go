package luma

import (
	"image"
	"image/draw"
)

// Channels puts red, green and blue of row y, 0 to 1, into rows of the picture's width. It is
// quick for what Plain makes.
func Channels(img *image.RGBA, y int, into [3][]float32) {
	pix := img.Pix[img.PixOffset(img.Rect.Min.X, img.Rect.Min.Y+y):]
	for x := range into[0] {
		p := pix[4*x : 4*x+3 : 4*x+3]
		for c, row := range into {
			row[x] = float32(p[c]) / max8
		}
	}
}

// Plain is a picture in 8 bits a channel, from its upper left corner on, on black where it is
// transparent: for the eye, not for measuring.
func Plain(img image.Image) *image.RGBA {
	if p, ok := img.(*image.RGBA); ok && p.Rect.Min == (image.Point{}) {
		return p
	}
	p := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(p, p.Rect, img, img.Bounds().Min, draw.Src)
	return p
}
