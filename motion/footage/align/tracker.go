package align

import (
	"math"

	"seamrail/motion/footage"
)

const (
	// held is the share of a landmark's blocks that must be found for it to go on as one; below it
	// the frame becomes a landmark itself, while it is still known where it is. Each landmark more
	// adds what is uncertain of it to all that lies on it.
	held = 0.3
	// near is how far from a landmark a frame may be, as apartness tells it, to be laid on that and
	// not on a nearer one that was found later.
	near = 0.6
	// hidden is how near to a landmark a frame was when what is not found of it any more is hidden by
	// something that moves by itself, and has not gone. To follow that would be to follow a hand.
	hidden = 0.3
	// direct is the share of the first frame's blocks that must be found to believe that it is
	// seen again.
	direct = 0.5
	// mostLandmarks bounds the memory that a take needs: some 1.2 megabytes each.
	mostLandmarks = 64
	// again is how alike a frame must look to the first, nothing moved, to be laid on it directly.
	again = 0.8
	// contradiction is by how much what was chained may be off from what is seen directly, in
	// pixels and in its own uncertainties, before nothing that was chained is believed: a product
	// that turns goes by for ever, and is back all the same.
	contradiction, sigmas = 3.0, 6
)

// Tracker follows a take, frame by frame, in memory that does not grow with what it has seen but
// for what it found: of each frame a kilobyte.
type Tracker struct {
	share     float64 // pixels that it is given for each that was recorded
	before    *Picture
	step      footage.Pose
	last      footage.Pose // on the first, of the last frame of which it is known
	landmarks []*landmark
	frames    []footage.Frame // with the poses that each had by itself
	looks     []look
	direct    int // the last frame that was laid on the first itself
}

// landmark is a frame that others are laid on, and how it lies on the first.
type landmark struct {
	picture *Picture
	pose    footage.Pose
	born    int     // which frame it is
	faith   []trust // in its blocks, once all frames are there
}

// NewTracker follows frames of which a pixel stands for so many of the recording, at least 1.
func NewTracker(reduced float64) *Tracker { return &Tracker{share: 1 / reduced} }

// Add measures the next frame; all have one size. It is not kept.
func (t *Tracker) Add(g footage.Gray) {
	p := Prepare(g)
	f := lightOf(g)
	f.Fine = fineOf(p)
	if t.before == nil {
		f.FromFirst = footage.Same()
		t.landmarks, t.looks = []*landmark{{picture: p.landed(), pose: f.FromFirst}}, []look{{}}
	} else {
		f.Changed, f.Otherwise = changed(t.before, p)
		f.FromBefore = on(t.before, p, &t.step, false).pose // what turns by degrees in a frame is a smear
		var l look
		f.FromFirst, l = t.place(p, f.FromBefore)
		t.looks = append(t.looks, l)
	}
	if t.before, t.step = p, f.FromBefore; f.FromFirst.Known {
		t.last = f.FromFirst
	}
	t.frames = append(t.frames, f)
}

// place is how a frame lies on the first, by the landmark that it should see most of, and what of
// it was seen on that.
func (t *Tracker) place(p *Picture, step footage.Pose) (footage.Pose, look) {
	here := len(t.frames)
	chained := step.After(t.frames[here-1].FromFirst)
	if seen := t.seenAgain(p, chained); seen.pose.Known {
		return seen.pose, newLook(t.landmarks[0], seen)
	}
	mark, found := t.laid(p, chained)
	pose, l := found.pose.After(mark.pose), newLook(mark, found)
	if t.apart(t.last, mark) < hidden {
		if !found.pose.Known {
			return footage.Pose{Scale: 1}, look{}
		}
	} else if !found.pose.Known || found.pose.Shared < held {
		if !pose.Known {
			pose, l = chained, look{}
		}
		if pose.Known && len(t.landmarks) < mostLandmarks {
			t.landmarks = append(t.landmarks, &landmark{picture: p.landed(), pose: pose, born: here})
		}
	}
	if mark == t.landmarks[0] && found.pose.Known && found.pose.Shared >= held {
		t.direct = here
	}
	return pose, l
}

// laid lays a frame on the first landmark that it should see enough of, or on the nearest.
func (t *Tracker) laid(p *Picture, chained footage.Pose) (*landmark, sight) {
	mark, nearest := t.marks(chained)
	found := t.on(mark, p, chained)
	if found.pose.Known && found.pose.Shared >= held || mark == nearest {
		return mark, found
	}
	if other := t.on(nearest, p, chained); other.pose.Known && (!found.pose.Known || other.pose.Shared > found.pose.Shared) {
		return nearest, other
	}
	return mark, found
}

// anew is how often a take that is lost is looked for turned and scaled, in frames: that takes ten
// times as long, and what is found in one of these frames is found in those that follow.
const anew = 12

// on lays a frame on a landmark, where the chain has it first, and where the last frame was.
func (t *Tracker) on(mark *landmark, p *Picture, chained footage.Pose) sight {
	turns := len(t.frames)%anew == 0
	was := t.last.After(mark.pose.Inverse())
	if !chained.Known {
		return on(mark.picture, p, &was, turns)
	}
	expected := chained.After(mark.pose.Inverse())
	found := on(mark.picture, p, &expected, turns)
	if !found.pose.Known || found.pose.Shared < held { // the step may be that of something else
		if other := refined(mark.picture, p, was, 1); other.pose.Known && (!found.pose.Known || other.pose.Shared > found.pose.Shared) {
			return other
		}
	}
	return found
}

// seenAgain lays a frame on the first where they look alike as they are. If that is not where the
// chain has it, the chain told of something that moves in the picture, and none of it is believed.
func (t *Tracker) seenAgain(p *Picture, chained footage.Pose) sight {
	first := t.landmarks[0].picture
	if t.direct == len(t.frames)-1 || correlation(&first.levels[levels-1], &p.levels[levels-1], footage.Same()) < again {
		return sight{}
	}
	same := footage.Same()
	seen := on(first, p, &same, true)
	if !seen.pose.Known || seen.pose.Shared < direct {
		return sight{}
	}
	if off := math.Hypot(seen.pose.X-chained.X, seen.pose.Y-chained.Y); !chained.Known || off > contradiction+sigmas*(chained.Doubt.X+chained.Doubt.Y) {
		for n := t.direct + 1; n < len(t.frames); n++ {
			t.frames[n].FromFirst, t.looks[n] = footage.Pose{Scale: 1}, look{}
		}
		t.landmarks = t.landmarks[:1]
	}
	t.direct = len(t.frames)
	return seen
}

// marks are the first landmark that a frame which lies so is near, and the nearest; that which was
// found last, twice, where nobody knows how the frame lies.
func (t *Tracker) marks(p footage.Pose) (first, nearest *landmark) {
	last := t.landmarks[len(t.landmarks)-1]
	if !p.Known {
		return last, last
	}
	found, least := false, math.Inf(1)
	for _, m := range t.landmarks {
		d := t.apart(p, m)
		if d < near && !found {
			first, found = m, true
		}
		if d < least {
			nearest, least = m, d
		}
	}
	if !found {
		first = nearest
	}
	return first, nearest
}

// apart is how far a frame that lies so is from a landmark.
func (t *Tracker) apart(p footage.Pose, m *landmark) float64 {
	width, height := t.before.Size()
	return apartness(p.After(m.pose.Inverse()), width, height)
}

// apartness is how much of a picture of a size is lost to another: 1 for a shift by all of it, and
// as much for a growth to twice the size, or half a right angle.
func apartness(p footage.Pose, width, height int) float64 {
	return math.Hypot(p.X/float64(width), p.Y/float64(height)) + math.Abs(math.Log2(p.Scale)) + math.Abs(p.Turn)/45
}

// Frames are what was measured, in pixels of the recording.
func (t *Tracker) Frames() []footage.Frame {
	out := make([]footage.Frame, len(t.frames))
	for n, p := range t.onOneThing() {
		out[n] = t.frames[n]
		out[n].FromFirst, out[n].FromBefore = p.Magnified(1/t.share), out[n].FromBefore.Magnified(1/t.share)
	}
	return out
}
