package page

import (
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
)

// driver is a page that drives a run of a fake.
type driver struct {
	t     *testing.T
	s     *Server
	run   *fakeRun
	claim string
}

// driven runs a test of a page that drives, in a time of its own.
func driven(t *testing.T, test func(d driver)) {
	t.Helper()
	s, _ := opened(t)
	_, err := s.first.planned(string(starter.Shot())) // and is kept: its time is not that of the test
	require.NoError(t, err)
	synctest.Test(t, func(t *testing.T) {
		run := newFakeRun() // its channel belongs to the time of the test
		s.drivesInstead(run)
		d := driver{t, s, run, ""}
		w := d.post("/api/drive/open", map[string]any{"text": string(starter.Shot()), "port": "virtual"})
		require.Equal(t, http.StatusOK, w.Code, w.Body)
		var got struct {
			Claim string `json:"claim"`
		}
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
		d.claim = got.Claim
		s.stage.Enter(drive.Opening)
		test(d)
		d.end()
	})
}

// end lets the run be over.
func (d driver) end() {
	select {
	case <-d.run.over:
	default:
		close(d.run.over)
	}
	synctest.Wait()
	time.Sleep(2 * lookFor) // the look-out sees that it is over
	synctest.Wait()
}

func (d driver) post(path string, body any) *httptest.ResponseRecorder {
	return posted(d.s, path, body)
}

func (d driver) do(request string) int {
	return d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": request}).Code
}

// beats keeps the page alive for a time.
func (d driver) beats(long time.Duration) {
	for end := time.Now().Add(long); time.Now().Before(end); time.Sleep(250 * time.Millisecond) {
		require.Equal(d.t, http.StatusOK, d.post("/api/drive/beat", map[string]string{"claim": d.claim}).Code)
	}
}

func (d driver) state() DriveState {
	x, _ := d.s.stage.look()
	return x
}

func TestOnePageDrives(t *testing.T) {
	driven(t, func(d driver) {
		w := d.post("/api/drive/open", map[string]any{"text": string(starter.Shot()), "port": "virtual"})
		assert.Equal(t, http.StatusLocked, w.Code)
		assert.Contains(t, w.Body.String(), "another page drives the rig")
		for _, claim := range []string{"", "x", string(newKey())} {
			for _, request := range []string{"stop", "go", "quit", "abort"} {
				assert.Equal(t, http.StatusLocked, d.post("/api/drive/do", map[string]any{"claim": claim, "request": request}).Code)
			}
			assert.Equal(t, http.StatusLocked, d.post("/api/drive/beat", map[string]any{"claim": claim}).Code)
		}
		assert.Empty(t, d.run.asked())
		d.end()
		assert.False(t, d.state().Open)
		assert.Equal(t, "quit", d.state().Ended)
		next := newFakeRun()
		d.s.drivesInstead(next)
		w = d.post("/api/drive/open", map[string]any{"text": string(starter.Shot()), "port": "virtual"})
		assert.Equal(t, http.StatusOK, w.Code, "once it has let go, another may")
		close(next.over)
		synctest.Wait()
		time.Sleep(2 * lookFor)
	})
}

// A page that is there is left alone for as long as it likes.
func TestAPageThatIsThereIsNotStopped(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		d.beats(time.Minute)
		assert.Empty(t, d.run.asked())
		assert.False(t, d.state().Lost)
	})
}

// Closed, asleep or crashed: the rig slows down once, which no second stop turns
// into an abort, and the port is given back.
func TestLosingThePageStopsTheRig(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		d.beats(3 * time.Second)
		time.Sleep(lostAfter - 500*time.Millisecond)
		assert.Empty(t, d.run.asked())
		time.Sleep(500 * time.Millisecond)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked())
		assert.True(t, d.state().Lost)
		d.s.stage.Enter(drive.Slowing)
		time.Sleep(2 * goneAfter)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked(), "it is let slow down")
		d.s.stage.Enter(drive.Resting)
		time.Sleep(2 * goneAfter)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Quit}, d.run.asked())
	})
}

func TestAPageThatComesAgainGoesOn(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		time.Sleep(2 * lostAfter)
		d.s.stage.Enter(drive.Slowing)
		d.s.stage.Enter(drive.Resting)
		d.beats(time.Minute)
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked())
		assert.False(t, d.state().Lost)
		assert.Equal(t, http.StatusOK, d.do("resume"))
		d.s.stage.Enter(drive.Running)
		time.Sleep(2 * lostAfter)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Resume, drive.Stop}, d.run.asked(), "and is lost again")
	})
}

// The engine takes a second stop for an abort; a key that is held down is none.
func TestAStopIsPassedOnOnce(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		for range 5 {
			assert.Equal(t, http.StatusOK, d.do("stop"))
		}
		d.s.stage.Enter(drive.Slowing)
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Equal(t, http.StatusOK, d.do("quit"))
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked())
		assert.Equal(t, http.StatusOK, d.do("abort"))
		assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Stop}, d.run.asked())
	})
}

// What moves in small steps is stopped too, whatever the state is called.
func TestAJogIsStopped(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Empty(t, d.run.asked(), "nothing moves")
		assert.Equal(t, http.StatusOK, d.do("jog"))
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Equal(t, http.StatusOK, d.do("jog"))
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Equal(t, []drive.RequestKind{drive.Jog, drive.Stop, drive.Jog, drive.Stop}, d.run.asked())
	})
}

// What has been asked for moves the rig a moment later, while the state still says that it
// rests: a stop meanwhile is of that.
func TestAStopOfWhatIsAboutToMove(t *testing.T) {
	for request, kind := range map[string]drive.RequestKind{"home": drive.Home, "go": drive.Go, "pose": drive.Pose, "walk": drive.WalkThrough} {
		driven(t, func(d driver) {
			d.s.stage.Enter(drive.Ready)
			assert.Equal(t, http.StatusOK, d.do(request))
			assert.Equal(t, http.StatusOK, d.do("stop"))
			assert.Equal(t, []drive.RequestKind{kind, drive.Stop}, d.run.asked())
			d.s.stage.Enter(drive.Ready)
			assert.Equal(t, http.StatusOK, d.do("stop"))
			assert.Len(t, d.run.asked(), 2, "and once it rests again, nothing moves")
		})
		driven(t, func(d driver) {
			d.s.stage.Enter(drive.Ready)
			assert.Equal(t, http.StatusOK, d.do(request))
			time.Sleep(2 * lostAfter)
			synctest.Wait()
			assert.Equal(t, []drive.RequestKind{kind, drive.Stop}, d.run.asked(), "so is one of a page that is lost")
		})
	}
}

// What begins to move after the page has been lost is stopped as well.
func TestNothingBeginsToMoveForAPageThatIsLost(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		time.Sleep(2 * lostAfter)
		synctest.Wait()
		assert.True(t, d.state().Lost)
		assert.Empty(t, d.run.asked())
		d.s.stage.Enter(drive.Approaching)
		time.Sleep(2 * lookFor)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked())
		time.Sleep(2 * lostAfter)
		synctest.Wait()
		assert.Len(t, d.run.asked(), 1, "once")
	})
}

// The engine takes a stop at rest for the end. An axis that was held and rests again is at
// rest.
func TestAStopAfterAJogIsNoEnd(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		ask := func(request string) {
			d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": request, "speed": 2, "press": 1})
		}
		ask("jog-hold")
		d.s.stage.Jogged(drive.Jogged{Moving: true, Gone: 1})
		ask("jog-release")
		d.s.stage.Jogged(drive.Jogged{Gone: 1.2})
		time.Sleep(2 * haltEvery)
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Equal(t, []drive.RequestKind{drive.JogHold, drive.JogRelease}, d.run.asked())
		d.s.stage.Jogged(drive.Jogged{Moving: true, Gone: 1.2})
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Len(t, d.run.asked(), 3, "one that slows down is not")
	})
}

// A word that comes too early must not lie in wait until the cautions are shown.
func TestARequestOutOfItsStateIsRefused(t *testing.T) {
	driven(t, func(d driver) {
		press := 0
		for state := drive.Opening; state <= drive.Over; state++ {
			d.s.stage.Enter(state)
			for name := range requests {
				if name == "stop" || name == "quit" || name == "abort" || name == "jog-release" {
					continue
				}
				press++
				want := http.StatusConflict
				if strings.Contains(strings.Join(taken[state], " "), name) {
					want = http.StatusOK
				}
				q := map[string]any{"claim": d.claim, "request": name}
				switch name {
				case "jog-hold":
					q["speed"], q["press"] = 2, press
				case "mark":
					q["name"], q["text"] = "to", string(starter.Shot())
				}
				assert.Equal(t, want, d.post("/api/drive/do", q).Code, "%s while %s", name, state)
			}
		}
	})
}

func TestARequestThatMeansNothingIsRefused(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		for _, q := range []map[string]any{
			{"request": "fly"}, {"request": ""}, {"request": "jog", "axis": 1}, {"request": "jog", "axis": -1}, {"request": "jog", "by": 101},
			{"request": "jog", "by": -1e300}, {"request": "mark", "name": "middle"}, {"request": "mark", "name": "end", "axis": 7},
			{"request": "mark", "name": "middle", "text": string(starter.Shot())}, {"request": "jog-hold", "press": 1}, {"request": "jog-hold", "press": 1, "axis": 3, "speed": 1},
		} {
			q["claim"] = d.claim
			assert.Equal(t, http.StatusBadRequest, d.post("/api/drive/do", q).Code, "%v", q)
		}
		assert.Empty(t, d.run.asked())
	})
}

func TestAMarkBecomesAValue(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		text := strings.Replace(string(starter.Shot()), `"40 mm"`, `"4 cm"`, 1)
		mark := func(name string) int {
			return d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": "mark", "name": name, "text": text}).Code
		}
		assert.Equal(t, http.StatusOK, mark("from"))
		d.s.stage.Marked(markName("from", 0), []float64{41.5})
		d.s.stage.Marked("nonsense", []float64{1})
		d.s.stage.Marked(markName("from", 5), []float64{1})
		synctest.Wait()
		d.s.stage.Marked(markName("to", 0), []float64{430})
		synctest.Wait()
		d.s.stage.Marked(markName("lens", 0), []float64{12})
		synctest.Wait()
		marks := d.state().Marks
		require.Len(t, marks, 3)
		assert.Equal(t, Mark{Set: Set{"axis.rail.from", "4.15 cm"}, Wrong: []string{}, Fits: []string{}}, marks[0])
		assert.Equal(t, Set{"axis.rail.to", "430 mm"}, marks[1].Set)
		assert.Contains(t, strings.Join(marks[1].Wrong, " "), "axis rail: position 430 mm must be at most 400 mm")
		assert.NotEmpty(t, marks[1].Fits)
		assert.Equal(t, Set{"scene.axis.rail.measured-at", "12 mm"}, marks[2].Set)
		assert.Equal(t, http.StatusBadRequest, mark("middle"))
	})
}

// What is held is let go of by its own press and by no other, and what a press still asks
// that has been let go of is nothing, in whatever order it comes.
func TestWhatIsHeldIsLetGoOf(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		ask := func(request string, press int) string {
			return d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": request, "speed": -2, "press": press}).Body.String()
		}
		assert.Contains(t, ask("jog-hold", 1), `"ok":true`)
		assert.Contains(t, ask("jog-hold", 1), `"ok":true`, "held on")
		ask("jog-release", 1)
		assert.Contains(t, ask("jog-hold", 1), `"ok":false`, "on its way while the finger went up")
		assert.Contains(t, ask("jog-hold", 2), `"ok":true`)
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Contains(t, ask("jog-hold", 2), `"ok":false`, "a stop is of what is held too")
		assert.Contains(t, ask("jog-hold", 3), `"ok":true`)
		ask("jog-release", 3)
		assert.Equal(t, []drive.RequestKind{drive.JogHold, drive.JogHold, drive.JogRelease, drive.JogHold, drive.Stop, drive.JogHold, drive.JogRelease}, d.run.asked())
	})
}

// A frame or a walk of a shot that has changed since is planned first, and asked for again.
func TestAFrameIsOfTheShotAsItIs(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		for request, kind := range map[string]drive.RequestKind{"pose": drive.Pose, "walk": drive.WalkThrough} {
			before := len(d.run.asked())
			d.run.anew = true
			w := d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": request, "frame": 36, "text": string(starter.Shot())})
			assert.Contains(t, w.Body.String(), `"anew":true`)
			assert.Len(t, d.run.asked(), before)
			d.run.anew = false
			d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": request, "frame": 36, "text": string(starter.Shot())})
			assert.Equal(t, kind, d.run.asked()[before])
		}
	})
}

// Ctrl-C ends the page once the rig rests, and not before.
func TestClosingLetsTheRigComeToRest(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		left := false
		go func() { d.s.leave(); left = true }()
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.Quit}, d.run.asked())
		assert.False(t, left)
		d.s.Abort()
		assert.Equal(t, []drive.RequestKind{drive.Quit, drive.Quit}, d.run.asked(), "told twice, it aborts")
		d.end()
		assert.True(t, left)
	})
}

func TestClosingWaitsForAStopThatIsUnderWay(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		assert.Equal(t, http.StatusOK, d.do("stop"))
		go d.s.leave()
		d.s.stage.Enter(drive.Slowing)
		d.beats(5 * time.Second)
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked(), "no abort")
		d.s.stage.Enter(drive.Resting)
		d.beats(time.Second)
		assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Quit}, d.run.asked())
	})
}

// A port that vanishes ends the run, is said, and lets the next page drive.
func TestARunThatFailsIsSaid(t *testing.T) {
	driven(t, func(d driver) {
		d.run.fails = errors.New("the port is gone: unplugged")
		d.s.stage.Enter(drive.Running)
		d.s.stage.Passed(drive.Pass{Take: 4, End: drive.PortLost})
		d.end()
		assert.True(t, d.state().Failed)
		assert.False(t, d.state().Open)
		assert.Equal(t, "the port is gone: unplugged", d.state().Ended)
		assert.Equal(t, []Pass{{Take: 4, End: drive.PortLost.String()}}, d.state().Passes, "nothing that was seen is lost")
		_, run := d.s.driving.away()
		assert.Nil(t, run)
	})
}
