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
	p, k := oneRound("3-4-5")
	take := k.film(p)
	_, other := oneRound("harmonic")
	for name, c := range map[string]struct {
		clip      footage.Course
		perScreen exact.Rat
		frame0    float64
		is        bool
	}{
		"every third":                          {delivered(take, 1, 3, 1), exact.Int(3), (31.3 - 1) / 3, true},
		"each twice":                           {delivered(take, 4, 1, 2), exact.New(1, 2), 2 * (31.3 - 4), true},
		"each twice, from a second":            {coursed(delivered(take, 4, 1, 2)).from(1), exact.New(1, 2), 2*(31.3-4) - 1, true},
		"every third, of a shot of each twice": {delivered(take, 1, 3, 1), exact.New(1, 2), 0, false},
		"all, of a shot of every third":        {take, exact.Int(3), 31.3, true},
		"every third of another":               {delivered(other.film(p), 1, 3, 1), exact.Int(3), 0, false},
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

// A plan on the timeline is where the captured one is at the same times.
func TestAPlanOnTheTimeline(t *testing.T) {
	p, _ := fern()
	for _, n := range []exact.Rat{exact.Int(3), exact.New(1, 2), exact.Int(1)} {
		p.PerScreen = n
		q, ok := p.OnTimeline()
		require.True(t, ok)
		assert.Equal(t, exact.Int(p.Loop).Quo(p.CaptureRate), exact.Int(q.Loop).Quo(q.CaptureRate))
		assert.GreaterOrEqual(t, float64(q.RunOut)/q.CaptureRate.Float(), float64(p.RunOut)/p.CaptureRate.Float())
	}
	for _, n := range []exact.Rat{{}, exact.Int(5), exact.Int(-1)} { // 144 are no fives
		p.PerScreen = n
		_, ok := p.OnTimeline()
		assert.False(t, ok, "%s", n)
	}
}

// from is a course from a frame on.
func (c coursed) from(i int) footage.Course {
	c.Frames = c.Frames[i:]
	return footage.Course(c)
}

type coursed footage.Course

// oneRound is fern's take of one round, by a law.
func oneRound(name string) (Plan, taking) {
	p, k := fern()
	at, _ := round(0, leg{60, 100, mustLaw(name)}, leg{12, 100, nil}, leg{60, 0, mustLaw(name)}, leg{12, 0, nil})
	p.Rounds = 1
	p.Axes[0].At = seconds(once(at, p))
	k.frames = 31 + 144 + 30
	k.motion = []func(float64) float64{once(at, p)}
	return p, k
}
