package program

import (
	"seamrail/motion/controller/segment"
	"seamrail/motion/spec/rig"
)

// stage is the part of the take that the next line belongs to.
type stage int

const (
	begin stage = iota
	runUp
	rounds
	runOut
	end
	over
)

// advance makes the lines of the next block, or begins the next stage.
func (p *Program) advance() {
	switch p.stage {
	case begin:
		p.goToStart()
		p.stage = runUp
	case runUp:
		if !p.blocks(p.take.RunUp) {
			p.enter(rounds, 0)
		}
	case rounds:
		if !p.blocks(p.take.Round) {
			p.endRound()
		}
	case runOut:
		if !p.blocks(p.take.RunOut) {
			p.teller.Settle()
			p.stage = end
		}
	case end:
		if p.teller.Feed.Style == rig.InverseTime {
			p.line("G94")
		}
		p.markAfter()
		p.line("M2")
		p.stage = over
	}
}

// pace is how long a block lasts and is told to, s.
type pace struct{ sec, nominal float64 }

// pacesOf works them out once for all rounds.
func pacesOf(list []segment.Block) []pace {
	out := make([]pace, len(list))
	for i := range list {
		out[i] = pace{list[i].Seconds.Float(), list[i].Nominal.Float()}
	}
	return out
}

// blocks makes the lines of the next block, or tells that none is left.
func (p *Program) blocks(list []segment.Block) bool {
	if p.index == len(list) {
		return false
	}
	b, x := &list[p.index], &p.paces[p.stage][p.index]
	p.teller.Block(x.sec, x.nominal, b.End, b.Rest)
	p.index++
	return true
}

// enter begins a stage whose positions are shifted by the advance of so many
// rounds.
func (p *Program) enter(s stage, shift int64) {
	p.stage, p.index, p.said = s, 0, false
	p.teller.Shift(shift)
}

// endRound begins the next round or the run-out. The clock is set anew from
// the number of rounds, so that it does not drift.
func (p *Program) endRound() {
	if !p.said {
		p.teller.Settle() // a round must not go by without a word
	}
	p.round++
	p.teller.Now = float64(p.round) * p.period
	if p.rounds >= 0 && p.round >= p.rounds {
		p.enter(runOut, p.round-1)
		return
	}
	p.enter(rounds, p.round)
}

// number is the round that lines of this stage belong to.
func (p *Program) number() int64 {
	switch p.stage {
	case begin:
		return Setup
	case runUp:
		return RunUp
	}
	return p.round
}
