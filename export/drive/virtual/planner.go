package virtual

import (
	"math"
	"slices"
)

// planner is the look-ahead: blocks whose entry speeds are such that the last can always
// stop. The first is the one being cut into slices.
type planner struct {
	blocks  []block // as many as it has capacity for
	settled int     // blocks up to this one keep their entry speeds whatever comes
	// What the block before had, for the corner into the next one.
	before        vector
	beforeNominal float64
}

// newPlanner returns a look-ahead of size blocks; one place stays free, as in any ring
// that tells full from empty by its two ends.
func newPlanner(size int) planner { return planner{blocks: make([]block, 0, size-1)} }

// room returns how many blocks still go in.
func (p *planner) room() int   { return cap(p.blocks) - len(p.blocks) }
func (p *planner) empty() bool { return len(p.blocks) == 0 }

// clear forgets all blocks.
func (p *planner) clear() { p.blocks, p.settled = p.blocks[:0], 0 }

// add appends a block and plans anew. It panics when the ring is full.
func (p *planner) add(b *block, o *Options) {
	if p.room() == 0 {
		panic("virtual: block into a full planner")
	}
	b.limit2 = 0
	if !p.empty() {
		slower := math.Min(b.nominal, p.beforeNominal)
		b.limit2 = math.Min(o.corner2(&p.before, &b.unit), slower*slower)
	}
	b.entry2 = 0
	p.before, p.beforeNominal = b.unit, b.nominal
	p.blocks = append(p.blocks, *b)
	p.replan()
}

// drop removes the first block.
func (p *planner) drop() {
	p.blocks = slices.Delete(p.blocks, 0, 1)
	p.settled = max(p.settled-1, 0)
}

// exit2 returns the square of the speed at the end of the first block.
func (p *planner) exit2() float64 {
	if len(p.blocks) < 2 {
		return 0
	}
	return p.blocks[1].entry2
}

// replan sets the entry speeds: backwards from a stop at the end of the last
// block, then forwards from what the first block has.
func (p *planner) replan() {
	leave2 := 0.0
	for i := len(p.blocks) - 1; i > p.settled; i-- {
		b := &p.blocks[i]
		b.entry2 = math.Min(b.limit2, b.reach2(leave2))
		leave2 = b.entry2
	}
	for i := p.settled; i < len(p.blocks)-1; i++ {
		b, next := &p.blocks[i], &p.blocks[i+1]
		if reach2 := b.reach2(b.entry2); reach2 < next.entry2 {
			next.entry2 = reach2
			p.settled = i + 1
		}
		if next.entry2 == next.limit2 {
			p.settled = i + 1
		}
	}
}

// restart plans from a standstill, after a hold.
func (p *planner) restart() {
	if p.empty() {
		return
	}
	p.settled = 0
	p.blocks[0].entry2 = 0
	p.replan()
}
