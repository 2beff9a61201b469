package firmware

import "math"

// Planner is the look-ahead: a ring of blocks whose entry speeds are such that
// the last can always stop. The first is the one being cut into slices.
type Planner struct {
	board   *Board
	blocks  []Block
	first   int
	count   int
	settled int // blocks up to this one keep their entry speeds whatever comes
	// What the block before had, for the corner into the next one.
	before        Vector
	beforeNominal float32
	fresh         bool // the first block has to be looked at anew
}

// Planner returns an empty ring; one place stays free, as in any ring that
// tells full from empty by its two ends.
func (b *Board) Planner() Planner {
	return Planner{board: b, blocks: make([]Block, b.Blocks-1)}
}

// At returns block i of the queue, 0 being the first.
func (p *Planner) At(i int) *Block {
	i += p.first
	if i >= len(p.blocks) {
		i -= len(p.blocks)
	}
	return &p.blocks[i]
}

// Full tells whether no block goes in.
func (p *Planner) Full() bool { return p.count == len(p.blocks) }

// Empty tells whether there is no block.
func (p *Planner) Empty() bool { return p.count == 0 }

// Add appends a block and plans anew. It panics when the ring is full.
func (p *Planner) Add(k *Block) {
	if p.Full() {
		panic("firmware: block into a full ring")
	}
	k.limit2 = 0
	if !p.Empty() {
		slower := min(k.nominal, p.beforeNominal)
		k.limit2 = min(p.board.corner2(&p.before, &k.unit), slower*slower)
	}
	k.entry2 = 0
	p.before, p.beforeNominal = k.unit, k.nominal
	p.count++
	*p.At(p.count - 1) = *k
	p.replan()
}

// drop removes the first block.
func (p *Planner) drop() {
	p.count--
	p.first++
	if p.first == len(p.blocks) {
		p.first = 0
	}
	p.settled = max(p.settled-1, 0)
}

// exit2 returns the square of the speed at the end of the first block.
func (p *Planner) exit2() float32 {
	if p.count < 2 {
		return 0
	}
	return p.At(1).entry2
}

// reach2 returns the square of the speed reached from the square of another by
// the whole of what is left: v² = u² + 2as.
func (k *Block) reach2(from2 float32) float32 {
	return from2 + float32(2*k.accel*k.length)
}

// replan sets the entry speeds: backwards from a stop at the end of the last
// block, then forwards from what the first block has. The first block, which is
// being cut, is looked at anew when what it ends at may have changed.
func (p *Planner) replan() {
	if p.settled == p.count-1 {
		return
	}
	if p.settled == 0 {
		p.fresh = true
	}
	leave2 := float32(0)
	for i := p.count - 1; i > p.settled; i-- {
		k := p.At(i)
		if k.entry2 != k.limit2 || i == p.count-1 {
			k.entry2 = min(k.limit2, k.reach2(leave2))
		}
		leave2 = k.entry2
	}
	for i := p.settled; i < p.count-1; i++ {
		k, next := p.At(i), p.At(i+1)
		if k.entry2 < next.entry2 {
			if reach2 := k.reach2(k.entry2); reach2 < next.entry2 {
				next.entry2 = reach2
				p.settled = i + 1
			}
		}
		if next.entry2 == next.limit2 {
			p.settled = i + 1
		}
	}
}

// Bounds of what counts as straight on, and as straight back: beyond them the
// formula for the corner divides by nothing.
const (
	straight = -0.999999
	reversal = 0.999999
)

// corner2 returns the square of the speed at which the corner between two
// directions may be taken: that of a circle which touches both and passes the
// corner at the deviation, at the acceleration of the axis that binds. With half
// angle h between the moves, r = d*sin(h)/(1-sin(h)) and v² = a*r, by the
// geometry of the tangent circle.
func (b *Board) corner2(from, to *Vector) float32 {
	cos := float32(0) // of the angle between the way back and the way on
	for i := range b.Axes {
		cos -= float32(from[i] * to[i])
	}
	switch {
	case cos > reversal:
		return 0
	case cos < straight:
		return math.MaxFloat32
	}
	var turn Vector // the direction of the change of velocity
	sum := float32(0)
	for i := range b.Axes {
		turn[i] = to[i] - from[i]
		sum += float32(turn[i] * turn[i])
	}
	turn.shrink(root(sum), len(b.Axes))
	sin := root(0.5 * (1 - cos))
	return b.along(&turn, acceleration) * float32(b.JunctionDeviation) * sin / (1 - sin)
}
