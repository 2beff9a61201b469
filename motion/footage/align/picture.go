package align

import "seamrail/motion/footage"

// levels are the sizes at which a picture is looked at: as it is, halved, and halved again.
const levels = 3

// Picture is a frame, ready to be laid on others. Nothing of it changes any more.
type Picture struct {
	levels  [levels]footage.Gray // softened; the first as large as the frame
	phase   *spectrum            // of the last level
	anchors [levels][]anchor     // blocks of each level
}

// Prepare softens a frame and halves it; the frame may then be used for another. Frames are to
// have some hundred pixels each way, and at most some thousand: what is larger takes longer, and
// is hardly found better.
func Prepare(g footage.Gray) *Picture {
	p := &Picture{}
	p.levels[0] = soft(g)
	for n := 1; n < levels; n++ {
		p.levels[n] = halved(p.levels[n-1])
	}
	for n := range p.levels {
		p.anchors[n] = anchorsOf(&p.levels[n])
	}
	p.phase = ofPicture(&p.levels[levels-1], footage.Same())
	return p
}

// landed is the picture as far as others are laid on it: nobody looks for blocks in it any more.
func (p *Picture) landed() *Picture {
	out := *p
	for n := range levels - 1 {
		out.levels[n] = footage.Gray{}
	}
	return &out
}

// Size is that of the frame.
func (p *Picture) Size() (width, height int) { return p.levels[0].Width, p.levels[0].Height }

// soft is a picture without its finest grain, by the weights 1 2 1 each way: what is finer than
// two pixels cannot be moved by a part of one.
func soft(g footage.Gray) footage.Gray {
	out, row := footage.NewGray(g.Width, g.Height), make([]float32, g.Width)
	for y := range g.Height {
		above, here, below := g.Row(max(y-1, 0)), g.Row(y), g.Row(min(y+1, g.Height-1))
		for x := range row {
			row[x] = (above[x] + 2*here[x] + below[x]) / 4
		}
		to := out.Row(y)
		for x := range row {
			to[x] = (row[max(x-1, 0)] + 2*row[x] + row[min(x+1, g.Width-1)]) / 4
		}
	}
	return out
}

// halved has one pixel for each four, softened again: the middle of the picture stays where it
// is. An odd row or column at the end is left out.
func halved(g footage.Gray) footage.Gray {
	out := footage.NewGray(max(g.Width/2, 1), max(g.Height/2, 1))
	for y := range out.Height {
		a, b, to := g.Row(min(2*y, g.Height-1)), g.Row(min(2*y+1, g.Height-1)), out.Row(y)
		for x := range to {
			l, r := min(2*x, g.Width-1), min(2*x+1, g.Width-1)
			to[x] = (a[l] + a[r] + b[l] + b[r]) / 4
		}
	}
	return soft(out)
}

// middle is where the middle of a picture is, in pixels from the centre of its first.
func middle(g footage.Gray) (x, y float64) { return float64(g.Width-1) / 2, float64(g.Height-1) / 2 }
