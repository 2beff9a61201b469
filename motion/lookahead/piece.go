package lookahead

// Piece is a stretch of constant acceleration along one move.
type Piece struct {
	Move    int
	Start   float64 // s from the beginning of the first move
	Seconds float64
	At      float64 // share of the move that is done at Start
	Speed   float64 // shares/s at Start
	Acc     float64 // shares/s2
}

// Share returns how much of the move is done sec seconds after Start.
func (p *Piece) Share(sec float64) float64 { return p.At + sec*(p.Speed+p.Acc*sec/2) }

// Motion is what the controller does with the moves.
type Motion struct {
	Pieces []Piece
	Ends   []float64 // s at which each move has been run
	Starve float64   // s for which it stood with an empty ring in mid-path
}

// Cursor finds pieces by time, forward.
type Cursor struct {
	m *Motion
	k int
}

// Cursor returns a cursor at the beginning.
func (m *Motion) Cursor() Cursor { return Cursor{m: m} }

// At returns the move in hand at sec and the share of it that is done. Times
// must not go back. Before the beginning it is the start of the first move,
// after the end the end of the last.
func (c *Cursor) At(sec float64) (move int, share float64) {
	list := c.m.Pieces
	if len(list) == 0 {
		return 0, 0
	}
	for c.k+1 < len(list) && list[c.k+1].Start <= sec {
		c.k++
	}
	p := &list[c.k]
	return p.Move, p.Share(min(max(sec-p.Start, 0), p.Seconds))
}

// tickSeconds is how long a controller holds one step rate while it speeds up
// or slows down: a ramp that leaves the slowest rate behind in less is not
// bound by it. A hundredth of a second is usual.
const tickSeconds = 0.01

// emit adds a stretch of d mm that goes from speed u to speed v, mm/s, and
// returns the seconds it takes.
func (r *runner) emit(b *block, d, u, v float64) float64 {
	if d <= 0 {
		return 0
	}
	sec := 2 * d / (u + v)
	acc := (v - u) / sec
	mean := (u + v) / 2
	per := b.events / b.length // steps a mm
	if slow := r.p.Slowest / per; mean < slow && (u == v || sec > tickSeconds) {
		sec, acc, u, mean = d/slow, 0, slow, slow
	}
	stretch := 1.0
	if r.p.Pace != nil {
		stretch += r.p.Pace(mean * per)
	}
	sec *= stretch
	r.out.Pieces = append(r.out.Pieces, Piece{
		Move: r.k, Start: r.now, Seconds: sec, At: r.done / b.length,
		Speed: u / b.length / stretch, Acc: acc / b.length / (stretch * stretch),
	})
	r.done += d
	r.now += sec
	return sec
}
