package move_test

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

const head = `[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
file = "bench.toml"
[axis.rail]
`

// file is a shot in which an axis has the example of a kind, and that axis.
func file(k move.Kind) (text, axis string) {
	own := "move = \"" + k.Name() + "\"\n" + strings.TrimPrefix(k.Example(), "move = \""+k.Name()+"\"\n")
	if strings.Contains(own, "follow = ") {
		return head + "from = \"40 mm\"\nto = \"100 mm\"\n[axis.pan]\n" + own, "pan"
	}
	return head + own, "rail"
}

func example(t *testing.T, k move.Kind) (shot.Shot, shot.AxisMove) {
	t.Helper()
	text, axis := file(k)
	s, err := shot.Decode("s", []byte(text), nil)
	require.NoError(t, err, k.Name())
	m, ok := s.Axis(axis)
	require.True(t, ok)
	require.Equal(t, k.Name(), m.Kind())
	return s, m
}

// again is the example with edits written into its file and read again.
func again(t *testing.T, k move.Kind, edits []move.Edit) move.Move {
	t.Helper()
	text, axis := file(k)
	data := []byte(text)
	for _, e := range edits {
		var err error
		data, err = source.Set("s", data, source.Join("axis", axis)+"."+e.Key, e.Text)
		require.NoError(t, err, "%v", e)
	}
	s, err := shot.Decode("s", data, nil)
	require.NoError(t, err, "%v", edits)
	m, _ := s.Axis(axis)
	return m.Does
}

// trackOf is how an axis of the shot moves, whatever it follows.
func trackOf(t *testing.T, s shot.Shot, m shot.AxisMove) *track.Track {
	t.Helper()
	x, err := m.Track(s.Loop.Real())
	if f, follows := m.Does.(move.Follower); follows {
		require.Error(t, err, "it has no track of its own")
		carriage, ok := s.Axis(f.Carriage())
		require.True(t, ok)
		x, err = f.Aimed(trackOf(t, s, carriage))
	}
	require.NoError(t, err)
	return x
}

// Every move answers everything that is asked of every move.
func TestEveryMoveAnswersEverything(t *testing.T) {
	said := map[string]string{}
	for _, k := range move.Kinds() {
		t.Run(k.Name(), func(t *testing.T) {
			s, m := example(t, k)
			does := m.Does
			assert.False(t, m.Faulty)
			assert.Equal(t, k.Name(), does.Kind())

			words := does.Words(s.Clock)
			_, still := does.(move.Stayer)
			assert.NotEmpty(t, words)
			assert.Equal(t, still, strings.HasPrefix(words, "stays at"), words)
			assert.Empty(t, said[words], "nobody else says that")
			said[words] = k.Name()

			x := trackOf(t, s, m)
			assert.True(t, x.Period().Equal(s.Loop.Real()))
			assert.Equal(t, still, x.Extremes().Speed.Value == 0)

			linear, rotary := m.CheckKind(false), m.CheckKind(true)
			assert.True(t, (linear == nil) != (rotary == nil), "it suits one kind of axis, with these units")
			for _, f := range []any{linear, rotary} {
				if p := reflect.ValueOf(f); !p.IsNil() {
					assert.NotEmpty(t, p.Elem().FieldByName("Bound").String())
				}
			}

			keys := move.KeysOf(does)
			require.NotEmpty(t, keys)
			spots, named := does.Spots(), map[string]bool{}
			assert.NotEmpty(t, spots, "some place of it is found on the rig")
			for _, p := range spots {
				name, _, _ := strings.Cut(p.Key, "[")
				assert.Contains(t, keys, name)
				assert.NotEmpty(t, p.Means)
				assert.False(t, named[p.Name], "%s twice", p.Name)
				named[p.Name] = true
				back := again(t, k, []move.Edit{{Key: p.Key, Text: unit.Format(p.Says(p.At.Float()), p.At.Dim)}})
				assert.Equal(t, does.Words(s.Clock), back.Words(s.Clock), "marked where it is, %s changes nothing", p.Key)
			}
			for _, g := range does.Grips(move.Stage{Loop: s.Loop, Captured: s.Loop.Captured}) {
				pull := move.Pull{Pos: g.Pos, Frame: &g.Frame}
				for _, e := range g.Drag(pull) {
					name, _, _ := strings.Cut(e.Key, "[")
					assert.Contains(t, keys, name)
				}
				back := again(t, k, g.Drag(pull))
				assert.Equal(t, does.Words(s.Clock), back.Words(s.Clock), "dragged to where it is, %s changes nothing", g.Key)
				at := x.At(g.Frame / s.Clock.Capture.Float())
				if g.Frame == float64(s.Loop.Captured) {
					at = x.Before(x.Seconds())
				}
				assert.InDelta(t, g.Pos, at.Pos, 1e-6, "%s lies on the curve", g.Key)
			}
			if still {
				return
			}
			bare, err := shot.Decode("s", []byte(head+k.Example()), nil)
			if !strings.Contains(k.Example(), "move = ") && !strings.Contains(k.Example(), "follow = ") {
				require.NoError(t, err, "it is told by its keys")
				assert.Equal(t, k.Name(), bare.Axes[0].Kind())
			}
		})
	}
}

// What only some moves can do, they do.
func TestWhatMovesCanDo(t *testing.T) {
	for _, k := range move.Kinds() {
		t.Run(k.Name(), func(t *testing.T) {
			s, m := example(t, k)
			period := s.Loop.Real()
			x := trackOf(t, s, m)
			e := x.Extremes()
			if p, ok := m.Does.(move.Passer); ok {
				assert.InDelta(t, x.Before(x.Seconds()).Pos-x.At(0).Pos, p.Cut(), 1e-9)
			} else {
				assert.InDelta(t, x.Before(x.Seconds()).Pos-x.At(0).Pos, x.Advance().Float(), 1e-6, "it closes")
			}
			if r, ok := m.Does.(move.Turner); ok {
				assert.True(t, x.Advance().Equal(r.Turned().Mul(exact.Int(360))))
				assert.Equal(t, e.Acc.Value == 0, r.Steady())
				steps := r.Turned().Float() * 360 / r.Step()
				assert.InDelta(t, math.Round(steps), steps, 1e-9, "it ends on a face")
			}
			if u, ok := m.Does.(move.UnderLaw); ok {
				out, back := u.Laws()
				assert.NotNil(t, out)
				assert.NotNil(t, back)
			}
			if r, ok := m.Does.(move.Relawed); ok {
				for _, l := range law.All() {
					other := m.Doing(r.WithLaws(l, l))
					assert.Equal(t, l.Name(), other.Law().Name())
					var edits []move.Edit
					for _, key := range r.LawKeys() {
						edits = append(edits, move.Edit{Key: key, Text: l.Name()})
					}
					if _, cut := m.Does.(move.Passer); cut && l.At(0).A != 0 {
						continue
					}
					assert.Equal(t, other.Does.Words(s.Clock), again(t, k, edits).Words(s.Clock))
				}
				assert.False(t, r.Tuned())
			}
			if r, ok := m.Does.(move.Ended); ok {
				near, far := r.Ends()
				assert.LessOrEqual(t, e.Max.Value, math.Max(near.Float(), far.Float())+1e-9)
				assert.GreaterOrEqual(t, e.Min.Value, math.Min(near.Float(), far.Float())-1e-9)
				turns := 0
				spans := slices.DeleteFunc(x.Spans(), func(s track.Span) bool { return s.Dir == 0 })
				for i, one := range spans {
					if one.Dir != spans[(i+1)%len(spans)].Dir {
						turns++
					}
				}
				assert.Equal(t, 2*r.Visits(), turns)
				for _, at := range []bool{false, true} {
					stays, known := r.Stays(period, at)
					for _, one := range stays {
						assert.True(t, known)
						end := far
						if at {
							end = near
						}
						assert.InDelta(t, end.Float(), x.At(one.From.Float()).Pos, 1e-9)
					}
				}
			}
			if r, ok := m.Does.(move.Legged); ok {
				travel, sec := r.Leg(period)
				assert.Positive(t, travel)
				assert.Positive(t, sec.Sign())
			}
			if r, ok := m.Does.(move.Shapeable); ok {
				why, fit := r.Shakeless()
				assert.Equal(t, why == "", fit == "")
				shaped := m
				shaped.Shaped = vibration.ZV
				y, err := shaped.ShapedTrack(period, spring.Spring{Frequency: 12, Damping: 0.03})
				require.NoError(t, err)
				assert.True(t, y.Period().Equal(period))
				assert.Contains(t, move.KeysOf(m.Does), move.ShapedKey)
			}
			if r, ok := m.Does.(move.Ranging); ok {
				for _, end := range r.Range() {
					for _, key := range end.Keys {
						assert.Contains(t, move.KeysOf(m.Does), key)
					}
					moved := again(t, k, end.To(end.Pos+1)).(move.Ranging).Range()
					for i, other := range r.Range() {
						want := other.Pos
						if other.Name == end.Name {
							want++
						}
						assert.InDelta(t, want, moved[i].Pos, 1e-9, "%s goes, the other stays", end.Name)
					}
				}
			}
			if r, ok := m.Does.(move.Shrinker); ok {
				less := r.Shrunk(0.5, e.Min.Value, e.Max.Value, s.Clock)
				require.NotEmpty(t, less)
				for _, c := range less {
					peaks := trackOf(t, s, m.Doing(c.Move)).Extremes()
					assert.LessOrEqual(t, math.Abs(peaks.Speed.Value), 0.5*math.Abs(e.Speed.Value)+1e-9)
					assert.Equal(t, c.Move.Words(s.Clock), again(t, k, c.Edits).Words(s.Clock))
					assert.NotEmpty(t, c.Words)
				}
			}
			if r, ok := m.Does.(move.Shifter); ok {
				c := r.Shifted(2.5)
				there := trackOf(t, s, m.Doing(c.Move)).Extremes()
				assert.InDelta(t, e.Min.Value+2.5, there.Min.Value, 1e-9)
				assert.InDelta(t, e.Max.Value+2.5, there.Max.Value, 1e-9)
				assert.Equal(t, c.Move.Words(s.Clock), again(t, k, c.Edits).Words(s.Clock))
			}
			if r, ok := m.Does.(move.Timed); ok {
				slow := m.Doing(r.Retimed(exact.Int(2)))
				y, err := slow.Track(period.Mul(exact.Int(2)))
				require.NoError(t, err)
				assert.InDelta(t, e.Speed.Value/2, y.Extremes().Speed.Value, 1e-6*math.Abs(e.Speed.Value), "all of it twice as long")
			}
			if r, ok := m.Does.(move.Scheduled); ok {
				c := r.Slowed(exact.Int(2), s.Clock)
				y, err := c.Move.Track(period.Mul(exact.Int(2)))
				require.NoError(t, err)
				assert.InDelta(t, e.Speed.Value/2, y.Extremes().Speed.Value, 1e-3*math.Abs(e.Speed.Value))
			}
		})
	}
}

// A name that is none of them is a fault that lists them all, and what is no move has
// neither track nor keys.
func TestNoSuchMove(t *testing.T) {
	_, err := shot.Decode("s", []byte(head+"move = \"wobble\"\nfrom = \"1 mm\"\nto = \"2 mm\"\n"), nil)
	for _, name := range move.Names() {
		assert.ErrorContains(t, err, name)
	}
	_, err = shot.AxisMove{Name: "rail"}.Track(exact.Int(1))
	assert.Error(t, err)
	assert.Panics(t, func() { move.KeysOf(stranger{}) })
}

// stranger is a move that is not in the list.
type stranger struct{ move.Hold }

func (stranger) Kind() string { return "stranger" }

// Every key is in the schema, and says there which move it is for.
func TestTheSchemaHasEveryMove(t *testing.T) {
	schema := map[string]source.Key{}
	for _, k := range move.AllKeys() {
		schema[k.Key] = k
	}
	assert.Equal(t, move.Names(), schema["move"].Choices)
	text := string(shot.Schema())
	for _, k := range move.Kinds() {
		_, m := example(t, k)
		assert.Contains(t, text, `"`+k.Name()+`"`)
		named := 0
		for _, key := range move.KeysOf(m.Does) {
			require.Contains(t, schema, key)
			assert.Contains(t, text, `"`+key+`": {`)
			assert.NotEmpty(t, schema[key].Help, key)
			if strings.Contains(schema[key].Help, k.Name()) {
				named++
			}
		}
		assert.Positive(t, named, "%s is named where its keys are told", k.Name())
		if _, can := m.Does.(move.Shapeable); can {
			assert.Contains(t, schema[move.ShapedKey].Help, k.Name())
		}
	}
	for _, k := range optimal.Kinds() {
		for _, takes := range k.Takes() {
			assert.Contains(t, schema[takes.Key].Help, k.Name(), "%s says which laws it is for", takes.Key)
		}
	}
}
