package page

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/export/report"
	"seamrail/motion/base/source"
	"seamrail/motion/cue"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/lawfit"
)

const movesHead = `shot = "One move"
[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
rig = "Bench"
[rig.controller]
feed = "inverse-time"
[rig.axis.rail]
kind = "linear"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
jerk = "60000 mm/s3"
steps = "80 per mm"
[rig.axis.table]
kind = "rotary"
travel = "endless"
speed = "400 deg/s"
acceleration = "3000 deg/s2"
steps = "160 per deg"
[rig.axis.pan]
kind = "rotary"
travel = ["-90 deg", "90 deg"]
speed = "180 deg/s"
acceleration = "720 deg/s2"
steps = "160 per deg"
`

// moved is a shot in which only one axis, whose name is told, has a move, but for what
// that one follows.
func moved(t *testing.T, k move.Kind) (text, axis string) {
	t.Helper()
	own := "move = \"" + k.Name() + "\"\n" + strings.TrimPrefix(k.Example(), "move = \""+k.Name()+"\"\n")
	for _, axis := range []string{"rail", "table"} {
		text := movesHead + "[axis." + axis + "]\n" + own
		s, err := shot.Decode("s", []byte(text), nil)
		if err != nil {
			continue // it follows the rail
		}
		if m, _ := s.Axis(axis); m.CheckKind(axis == "table") == nil {
			if _, follows := m.Does.(move.Follower); !follows {
				return text, axis
			}
		}
	}
	return movesHead + "[axis.rail]\nfrom = \"40 mm\"\nto = \"100 mm\"\n[axis.pan]\n" + own, "pan"
}

func planned(t *testing.T, text string) *job.Job {
	t.Helper()
	file := filepath.Join(t.TempDir(), "move.toml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	j, err := job.Source{Shot: file}.Job(nil)
	require.NoError(t, err, text)
	return j
}

// Every move is planned, verified, told in the report and on the page, heard in cues,
// and known to all that look for something better: nobody has forgotten one.
func TestEveryMoveIsEverywhere(t *testing.T) {
	chapter, err := os.ReadFile(filepath.Join("..", "guide", "chapters", "moves.md"))
	require.NoError(t, err)
	said := map[string]string{}
	for _, k := range move.Kinds() {
		t.Run(k.Name(), func(t *testing.T) {
			text, axis := moved(t, k)
			j := planned(t, text)
			i := axisIndex(j, axis)
			a := &j.Plan.Axes[i]
			m := a.Move.Does
			require.Equal(t, k.Name(), m.Kind())
			_, still := m.(move.Stayer)

			assert.Empty(t, j.Plan.Breaches())
			assert.Empty(t, verify.Check(j.Trajectory).Failed())
			_, steps := j.Trajectory.Steps(trajectory.StepOptions{Rounds: 1}).Next()
			assert.Equal(t, !still, steps)

			// the report
			var page, doc bytes.Buffer
			require.NoError(t, report.Text(&page, format.Told(j).Report(), false))
			require.NoError(t, report.JSON(&doc, format.Told(j).Facts()))
			var told struct {
				Axes []struct{ Name, Move, Words string }
			}
			require.NoError(t, json.Unmarshal(doc.Bytes(), &told))
			require.Equal(t, axis, told.Axes[i].Name)
			words := told.Axes[i].Words
			assert.Equal(t, k.Name(), told.Axes[i].Move)
			assert.Equal(t, m.Words(j.Shot.Clock), words)
			assert.Contains(t, strings.Join(strings.Fields(page.String()), " "), words)
			assert.Equal(t, still, strings.HasPrefix(words, "stays at"), "nothing else stays")
			assert.Empty(t, said[words], "no other move is told like that")
			said[words] = k.Name()

			// the page
			list := values(j.Shot)
			grips := handles(j, i)
			assert.Len(t, grips, len(m.Grips(move.Stage{Loop: j.Shot.Loop, Captured: j.Trajectory.Captured()})))
			for _, h := range grips {
				sets, err := h.to(axis, Edit{Path: h.Path, Pos: &h.Pos, Frame: &h.Frame})
				require.NoError(t, err)
				data := []byte(text)
				for _, s := range sets {
					data, err = source.Set("s", data, s.Path, s.Value)
					require.NoError(t, err)
				}
				assert.Equal(t, j.Plan.Hash(), planned(t, string(data)).Plan.Hash(), "dragged to where it is, %s changes nothing", h.Path)
			}
			labels := map[string]bool{}
			for _, v := range moveKeys(list, a.Move) {
				labels[v.Label] = true
				assert.NotEmpty(t, v.Help, v.Path)
			}
			for _, key := range move.KeysOf(m) {
				if _, text := absent("axis."+axis, key); text {
					assert.True(t, labels[key], "%s can be typed", key)
				}
			}

			// cues
			if _, cut := m.(move.Passer); !cut && turns(a) { // a pass turns round unseen
				at := planned(t, text+"[[cue]]\nname = \"ball\"\naxis = \""+axis+"\"\nat = \"turnaround\"\n")
				require.Len(t, at.Cues.Cues, 1)
				sec := at.Cues.Cues[0].Lands.Float()
				assert.InDelta(t, 0, a.Track.At(sec).Vel, 1e-5*(1+a.Extremes.Speed.Value), "it turns round just then")
			}
			if _, ended := m.(move.Ended); ended {
				far := planned(t, text+"[[cue]]\nname = \"ball\"\naxis = \""+axis+"\"\nat = \"far-end\"\n")
				near := planned(t, text+"[[cue]]\nname = \"ball\"\naxis = \""+axis+"\"\nat = \"near-end\"\n")
				place := func(s cue.Sheet) float64 { return a.Track.At(s.Cues[0].Lands.Float()).Pos }
				assert.Greater(t, place(far.Cues), place(near.Cues))
			}

			// what would be softer, where laws may be chosen
			_, err := lawfit.New(j.Shot, j.Rig, axis)
			if _, goes := m.(move.Shuttle); goes {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, axis)
			}

			// what would fit a rig that is too slow for it, and how short the loop can be
			if still {
				return
			}
			loop, ok := reach.ShortestLoop(j.Shot, j.Rig)
			assert.True(t, ok)
			assert.Less(t, loop.Screen, j.Shot.Loop.Screen)
			slow := j.Rig
			slow.Axes = append(slow.Axes[:0:0], slow.Axes...)
			for n := range slow.Axes {
				if slow.Axes[n].Name == axis {
					slow.Axes[n].MaxSpeed = 0.6 * speedOf(j, a)
				}
			}
			p, err := plan.Build(j.Shot, slow)
			require.NoError(t, err)
			require.NotEmpty(t, p.Breaches())
			kinds := map[string]bool{}
			for _, f := range reach.Fits(j.Shot, slow) {
				kinds[f.Kind] = true
			}
			assert.NotEmpty(t, kinds)
			if _, can := m.(move.Shrinker); can {
				assert.True(t, kinds["travel"], "it would fit if it went less far")
			}
			if _, can := m.(move.Relawed); can && a.Extremes.Acc.Value != 0 {
				assert.True(t, kinds["law"] || kinds["loop"])
			}
		})
		assert.Contains(t, string(chapter), "| `"+k.Name()+"` |", "the list of moves in the guide")
	}
}

func turns(a *plan.Axis) bool {
	var dirs []int
	for _, s := range a.Track.Spans() {
		if s.Dir != 0 {
			dirs = append(dirs, s.Dir)
		}
	}
	for _, d := range dirs {
		if d != dirs[0] {
			return true
		}
	}
	return false
}

// speedOf is the greatest speed of an axis at a frame that is shown.
func speedOf(j *job.Job, a *plan.Axis) float64 {
	most := 0.0
	for k := range j.Plan.Loop.Captured {
		most = math.Max(most, math.Abs(a.Track.At(j.Plan.Loop.Clock.FrameTime(k).Float()).Vel))
	}
	return most
}

// The handle of a turn goes from face to face: what is less than half way stays where it is.
func TestATurnIsDraggedFaceByFace(t *testing.T) {
	s, _ := opened(t)
	d := s.first
	text := d.text(t)
	planned := d.answer(t.Context(), question{Text: text, Quick: true})
	require.NotNil(t, planned.View)
	for _, a := range planned.View.Axes {
		for _, h := range a.Handles {
			if h.Kind != move.AdvanceGrip {
				assert.Zero(t, h.Step, h.Path)
				continue
			}
			assert.Equal(t, 60.0, h.Step, "of six faces")
			for by, turns := range map[float64]string{0.4: "1/6", 1: "1/3", -2: "-1/6"} {
				to := h.Pos + by*h.Step
				after := d.answer(t.Context(), question{Text: text, Edits: []Edit{{Path: h.Path, Pos: &to}}, Quick: true})
				assert.Contains(t, valuesOf(t, after), [2]string{"axis.table.turns", turns})
			}
		}
	}
}

func valuesOf(t *testing.T, a Answer) (out [][2]string) {
	t.Helper()
	require.NotNil(t, a.View, "%v", a.Faults)
	for _, v := range a.View.Values {
		out = append(out, [2]string{v.Path, v.Value})
	}
	return out
}
