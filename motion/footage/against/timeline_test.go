package against

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
)

// delivered are the frames of a take that a timeline shows: every so manieth from one on, each so
// often.
func delivered(c footage.Course, from, every, often int) footage.Course {
	out := footage.Course{About: c.About}
	for i := from; i < len(c.Frames); i += every {
		for range often {
			out.Frames = append(out.Frames, c.Frames[i])
		}
	}
	return out
}

// A clip of the timeline's frames is told as that, with frame 0 where it is in the clip: every third
// frame, or each twice; the other way round where the shot has another clock it is not.
func TestAClipIsTheTimelines(t *testing.T) {
	p, k := fern()
	take := k.film(p)
	for name, c := range map[string]struct {
		clip      footage.Course
		perScreen exact.Rat
		frame0    float64
		is        bool
	}{
		"every third":                          {delivered(take, 1, 3, 1), exact.Int(3), (31.3 - 1) / 3, true},
		"each twice":                           {delivered(take, 4, 1, 2), exact.New(1, 2), 2 * (31.3 - 4), true},
		"each twice, from a second":            {coursed(delivered(take, 4, 1, 2)).from(1), exact.New(1, 2), 2*(31.3-4) - 1, true},
		"every third, of a shot whose are all": {delivered(take, 1, 3, 1), exact.Int(1), 0, false},
		"every third, of a shot of each twice": {delivered(take, 1, 3, 1), exact.New(1, 2), 0, false},
		"all, of a shot of every third":        {take, exact.Int(3), 31.3, true},
		"every third of another":               {delivered(other(p, k), 1, 3, 1), exact.Int(3), 0, false},
	} {
		t.Run(name, func(t *testing.T) {
			q := p
			q.PerScreen = c.perScreen
			r, err := Lay(c.clip, q)
			require.NoError(t, err)
			require.Equal(t, c.is, r.Verdict.Kind == IsPlan, show(r))
			if !c.is {
				assert.False(t, r.Verdict.Kind == NotKnown && r.Timeline, r.Verdict.Text)
				return
			}
			assert.InDelta(t, c.frame0, r.Frame0.Value, 0.02)
			assert.Equal(t, name != "all, of a shot of every third", r.Timeline)
			if r.Timeline {
				assert.Contains(t, r.Verdict.Text, "these are the timeline's frames, not the captured ones")
			}
		})
	}
}

// from is a course from a frame on.
func (c coursed) from(i int) footage.Course {
	c.Frames = c.Frames[i:]
	return footage.Course(c)
}

type coursed footage.Course

// other is a take of another law.
func other(p Plan, k taking) footage.Course {
	at, _ := round(0, leg{60, 100, mustLaw("harmonic")}, leg{12, 100, nil}, leg{60, 0, mustLaw("harmonic")}, leg{12, 0, nil})
	k.motion = []func(float64) float64{once(at, p)}
	return k.film(p)
}
