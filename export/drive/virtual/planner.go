package virtual

import "math"

// planner is the look-ahead: a ring of blocks whose entry speeds are such that
// the last can always stop. The first is the one being cut into slices.
type planner struct {
	blocks  []block
	first   int
	count   int
	settled int // blocks up to this one keep their entry speeds whatever comes
	// What the block before had, for the corner into the next one.
	before        vector
	beforeNominal float64
}

// newPlanner returns a ring of size blocks; one place stays free, as in any
// ring that tells full from empty by its two ends.
func newPlanner(size int) planner { return planner{blocks: make([]block, size-1)} }

// at returns block i of the queue, 0 being the first.
func (p *planner) at(i int) *block {
	i += p.first
	if i >= len(p.blocks) {
		i -= len(p.blocks)
	}
	return &p.blocks[i]
}

func (p *planner) full() bool  { return p.count == len(p.blocks) }
func (p *planner) empty() bool { return p.count == 0 }

// clear forgets all blocks.
func (p *planner) clear() { p.first, p.count, p.settled = 0, 0, 0 }

// add appends a block and plans anew. It panics when the ring is full.
func (p *planner) add(b *block, o *Options) {
	if p.full() {
		panic("virtual: block into a full planner")
	}
	b.limit2 = 0
	if !p.empty() {
		slower := math.Min(b.nominal, p.beforeNominal)
		b.limit2 = math.Min(o.corner2(&p.before, &b.unit), slower*slower)
	}
	b.entry2 = 0
	p.before, p.beforeNominal = b.unit, b.nominal
	p.count++
	*p.at(p.count - 1) = *b
	p.replan()
}

// drop removes the first block.
func (p *planner) drop() {
	p.count--
	p.first++
	if p.first == len(p.blocks) {
		p.first = 0
	}
	p.settled = max(p.settled-1, 0)
}

// exit2 returns the square of the speed at the end of the first block.
func (p *planner) exit2() float64 {
	if p.count < 2 {
		return 0
	}
	return p.at(1).entry2
}

// replan sets the entry speeds: backwards from a stop at the end of the last
// block, then forwards from what the first block has.
func (p *planner) replan() {
	leave2 := 0.0
	for i := p.count - 1; i > p.settled; i-- {
		b := p.at(i)
		b.entry2 = math.Min(b.limit2, b.reach2(leave2))
		leave2 = b.entry2
	}
	for i := p.settled; i < p.count-1; i++ {
		b, next := p.at(i), p.at(i+1)
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
	p.at(0).entry2 = 0
	p.replan()
}
