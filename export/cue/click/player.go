package click

import (
	"encoding/binary"
	"iter"
	"math"

	"seamrail/motion/cue"
)

// block is how many samples are made at once.
const block = 4800

// silence is what is between sounds, which is most of a track.
var silence [block * frame]byte

// player makes the samples of sounds, block after block.
type player struct {
	pull  func() (sound, bool) // in the order of their times
	next  sound
	more  bool
	at    int64 // first sample of the block to come
	heard []sound
	bytes []byte
}

// sound is a tone that begins at a sample.
type sound struct {
	at   int64
	tone []float64
	gain [channels]float64
}

func newPlayer(pull func() (sound, bool)) *player {
	p := &player{pull: pull}
	p.next, p.more = pull()
	return p
}

// ofTake plays the beats of a take. What it returns ends it.
func ofTake(t cue.Take) (*player, func()) {
	hands := sides(t.Hands())
	pull, stop := iter.Pull(t.Beats())
	return newPlayer(func() (sound, bool) {
		b, more := pull()
		if !more {
			return sound{}, false
		}
		return beat(t, b, hands), true
	}), stop
}

// sides gives each of two hands a side, and any others both.
func sides(hands []string) map[string][channels]float64 {
	out := map[string][channels]float64{}
	for _, h := range hands {
		out[h] = [channels]float64{loudness, loudness}
	}
	if len(hands) == 2 {
		left, right := hands[0], hands[1]
		if right == "left" || left == "right" {
			left, right = right, left
		}
		out[left], out[right] = [channels]float64{loudness, 0}, [channels]float64{0, loudness}
	}
	return out
}

// beat is what is heard of a beat, with the loudness of each hand, left and right.
func beat(t cue.Take, b cue.Beat, hands map[string][channels]float64) sound {
	s := sound{at: Sample(b.At), tone: warning()}
	switch {
	case b.Cue == cue.SyncTone:
		s.tone, s.gain = mark(), [channels]float64{loudness, loudness}
	case b.Cue == cue.CountIn:
		s.gain = [channels]float64{loudness * behind, loudness * behind}
		if b.Left == 0 {
			s.tone = begins()
		}
	default:
		s.gain = hands[t.Cues[b.Cue].Hand]
		if b.Left == 0 {
			s.tone = now()
		}
	}
	return s
}

// render returns the next n samples, a block at most, as bytes that stay as they
// are until the next call.
func (p *player) render(n int64) []byte {
	for p.more && p.next.at < p.at+n {
		p.heard = append(p.heard, p.next)
		p.next, p.more = p.pull()
	}
	if len(p.heard) == 0 {
		p.at += n
		return silence[:n*frame]
	}
	mix := make([][channels]float64, n)
	kept := p.heard[:0]
	for _, s := range p.heard {
		s.into(mix, p.at)
		if s.at+int64(len(s.tone)) > p.at+n {
			kept = append(kept, s)
		}
	}
	p.heard = kept
	p.at += n
	p.bytes = p.bytes[:0]
	for _, m := range mix {
		for _, v := range m {
			p.bytes = binary.LittleEndian.AppendUint16(p.bytes, uint16(quantised(v)))
		}
	}
	return p.bytes
}

// into adds the part of a sound that is in a block that begins at a sample.
func (s sound) into(mix [][channels]float64, at int64) {
	first := max(s.at-at, 0)
	for i := first; i < int64(len(mix)); i++ {
		k := at + i - s.at
		if k >= int64(len(s.tone)) {
			return
		}
		for c := range s.gain {
			mix[i][c] += s.gain[c] * s.tone[k]
		}
	}
}

// quantised is a sample as 16 bits; what is too loud is cut off.
func quantised(v float64) int16 {
	return int16(math.Round(min(max(v, -1), 1) * math.MaxInt16))
}
