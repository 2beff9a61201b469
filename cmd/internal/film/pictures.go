package film

import (
	"context"
	"image"

	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/reduce"
	"seamrail/cmd/internal/film/y4m"
	"seamrail/motion/footage"
)

// planeRow takes a row of one of three planes of a frame.
type planeRow = func(plane, y int, row []float32)

// coloured is how a kind of recording is read in colour.
type coloured struct {
	read   func(row planeRow) error
	colour func(p [planes]float32) [planes]float32 // red, green and blue of its planes; nil where they are that
}

const planes = 3

// Pictures are frames of a recording in colour, to be shown.
type Pictures struct {
	take   *Take
	planes [planes]*reduce.Rows
	values [planes]footage.Gray
}

// OpenPictures opens a recording as Open does, for its colours.
func OpenPictures(ctx context.Context, what string, o Options) (*Pictures, error) {
	t, err := open(ctx, what, o, decoder.Coloured)
	if err != nil {
		return nil, err
	}
	p := &Pictures{take: t}
	for n := range p.planes {
		p.planes[n] = reduce.NewRows(t.grid)
	}
	return p, nil
}

// About is what the recording says of itself.
func (p *Pictures) About() footage.About { return p.take.About() }

// Next is the next frame that is wanted. Its errors are those of Take.Next.
func (p *Pictures) Next() (*image.RGBA, error) {
	t := p.take
	if t.stopped == nil {
		t.stopped = p.read()
	}
	if t.stopped != nil {
		return nil, t.stopped
	}
	return p.shown(), nil
}

func (p *Pictures) read() error {
	if err := p.take.reach(); err != nil {
		return err
	}
	for n, rows := range p.planes {
		rows.Begin(&p.values[n])
	}
	return p.take.one(func() error {
		return p.take.colours.read(func(plane, y int, row []float32) { p.planes[plane].Row(y, row) })
	})
}

// Close ends the reading, and the decoder where there is one.
func (p *Pictures) Close() error { return p.take.Close() }

// shown is a frame as a picture.
func (p *Pictures) shown() *image.RGBA {
	const whole = 255
	out := image.NewRGBA(image.Rect(0, 0, p.values[0].Width, p.values[0].Height))
	for n := range p.values[0].Pix {
		v := [planes]float32{p.values[0].Pix[n], p.values[1].Pix[n], p.values[2].Pix[n]}
		if p.take.colours.colour != nil {
			v = p.take.colours.colour(v)
		}
		for c, v := range v {
			out.Pix[4*n+c] = uint8(min(max(v, 0), 1)*whole + 0.5)
		}
		out.Pix[4*n+planes] = whole
	}
	return out
}

// byMatrix makes red, green and blue of luma Y and differences B and R that are
// (B - Y)/(2 - 2 kb) and (R - Y)/(2 - 2 kr): Rec. ITU-R BT.601-7, 2.5, and BT.709-6, 3.3, of which
// the numbers of clauses are from memory: no text was at hand.
func byMatrix(m y4m.Matrix) func(p [planes]float32) [planes]float32 {
	kr, kb := float32(0.299), float32(0.114)
	if m == y4m.BT709 {
		kr, kb = 0.2126, 0.0722
	}
	return func(p [planes]float32) [planes]float32 {
		r, b := p[0]+2*(1-kr)*p[2], p[0]+2*(1-kb)*p[1]
		return [planes]float32{r, (p[0] - kr*r - kb*b) / (1 - kr - kb), b}
	}
}
