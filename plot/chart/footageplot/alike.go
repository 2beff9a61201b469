package footageplot

import (
	"image/color"
	"io"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Alike is how alike each frame is to each other: Values[r][c] from 0, unlike, to 1, the same, of
// a square grid over the recording. What lies above the diagonal is as what lies below it.
type Alike struct {
	Title  string
	Lines  []string
	Frames int // of the recording
	Values [][]float64
	Loops  []Loop // best first
}

// Loop is shown from frame From on, frame To being the same as that one again.
type Loop struct{ From, To float64 }

const (
	lap       vg.Length = 0.4 // by which rows lie over each other, so that no paper shows between
	square    vg.Length = 440
	alikeFoot vg.Length = 16
)

// DrawAlike draws a and writes it to w as "png", "svg" or "pdf", with errors as Draw has.
func DrawAlike(w io.Writer, format string, a Alike) error {
	f := style.Figure{Frame: frame, Title: a.Title, Lines: a.Lines, Height: markRoom + square + axisRoom + alikeFoot, Body: a.body}
	if len(a.Values) == 0 || a.Frames < 2 {
		f.Lacks = "nothing to draw: there are no two frames"
	}
	return f.Write(w, format)
}

func (a Alike) body(s *style.Sheet, y vg.Length) {
	pan := frame.Panel(s, y-markRoom, square)
	last := float64(a.Frames - 1)
	pan.X0, pan.X1, pan.Y0, pan.Y1 = 0, last, 0, last
	for tone := range tones + 1 {
		s.Keep(shade(tone))
	}
	n := len(a.Values)
	wide, high := (pan.Right-pan.Left)/vg.Length(n), (pan.Top-pan.Bottom)/vg.Length(n)
	for r, row := range a.Values {
		for c := 0; c < n; {
			end, tone := c+1, toneOf(row[c])
			for end < n && toneOf(row[end]) == tone {
				end++
			}
			s.Fill(pan.Left+wide*vg.Length(c), pan.Bottom+high*vg.Length(r), pan.Left+wide*vg.Length(end), min(pan.Bottom+high*vg.Length(r+1)+lap, pan.Top), shade(tone))
			c = end
		}
	}
	pan.GridX(style.Ticks(0, last, 8, false), true)
	pan.GridY(style.Ticks(0, last, 8, false))
	pan.Along("frame of the recording, against each other frame")
	for k := len(a.Loops) - 1; k >= 0; k-- {
		l := a.Loops[k]
		s.Ring(pan.At(l.To, l.From), 4, 1.4, style.Hue(1))
		s.Ring(pan.At(l.From, l.To), 4, 1.4, style.Hue(1))
		if k == 0 { // the best
			s.Dot(pan.At(l.To, l.From), 3, style.Hue(1))
			s.Dot(pan.At(l.From, l.To), 3, style.Hue(1))
		}
	}
}

// tones are how many shades there are: the eye tells some more apart, none of which say more.
const tones = 24

func toneOf(v float64) int {
	return int(math.Round(math.Min(math.Max(v, 0), 1) * tones))
}

// shade is dark where frames are alike.
func shade(tone int) color.NRGBA {
	share := float64(tone) / tones
	ink, paper := style.Ink, style.Paper
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(b) + share*(float64(a)-float64(b)))) }
	return color.NRGBA{R: mix(ink.R, paper.R), G: mix(ink.G, paper.G), B: mix(ink.B, paper.B), A: 255}
}
