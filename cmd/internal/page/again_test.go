package page

import (
	"context"
	"encoding/json"
	"net/http"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
)

// stays keeps the connection of the page open that drives, until what it returns is called.
func (d driver) stays() (vanish func()) {
	ctx, end := context.WithCancel(context.Background()) // which belongs to the test's own time
	r := request(d.s, http.MethodPost, "/api/drive/stay", map[string]any{"claim": d.claim}).WithContext(ctx)
	go served(d.s, r)
	synctest.Wait()
	return func() {
		end()
		synctest.Wait()
	}
}

// A page whose connection ends has vanished: what it held is let go of at once, and what
// moves for it is stopped as soon as that is looked at, not a second later.
func TestAPageThatVanishesLetsGo(t *testing.T) {
	for _, moves := range []drive.State{drive.Homing, drive.Approaching, drive.Posing, drive.Counting, drive.Returning} {
		driven(t, func(d driver) {
			d.s.stage.Enter(moves)
			vanish := d.stays()
			d.beats(3 * time.Second)
			assert.Empty(t, d.run.asked())
			time.Sleep(lookFor / 2)
			vanish()
			assert.Equal(t, []drive.RequestKind{drive.JogRelease}, d.run.asked())
			time.Sleep(lookFor)
			synctest.Wait()
			assert.Equal(t, []drive.RequestKind{drive.JogRelease, drive.Stop}, d.run.asked(), moves)
			assert.True(t, d.state().Lost)
			other := served(d.s, request(d.s, http.MethodPost, "/api/drive/stay", map[string]any{"claim": "another"}))
			assert.Equal(t, http.StatusLocked, other.Code)
		})
	}
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		vanish := d.stays()
		d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": "jog-hold", "speed": 2, "press": 1})
		vanish()
		time.Sleep(2 * lookFor)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.JogHold, drive.JogRelease}, d.run.asked()[:2], "an axis that was held")
		assert.True(t, d.state().Lost)
	})
}

// loads has a browser ask for a page, as it does before it puts the old one away.
func (d driver) loads() {
	w := served(d.s, request(d.s, http.MethodGet, "/", nil))
	require.Equal(d.t, http.StatusOK, w.Code)
}

// A tab that is closed asks for no page: its take is stopped as soon as that is looked at.
func TestATakeDoesNotWaitForATabThatIsClosed(t *testing.T) {
	for _, x := range []drive.State{drive.Running, drive.Awaiting} {
		driven(t, func(d driver) {
			d.s.stage.Enter(x)
			vanish := d.stays()
			d.loads()
			d.beats(loadsFor) // whoever asked for that one has it by now
			vanish()
			time.Sleep(lookFor)
			synctest.Wait()
			assert.Equal(t, []drive.RequestKind{drive.JogRelease, drive.Stop}, d.run.asked())
			assert.True(t, d.state().Lost)
		})
	}
}

// A take goes on without its page for as long as its beats may be late, and no longer.
func TestATakeWaitsForItsPageAsLongAsABeat(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		vanish := d.stays()
		d.beats(3 * time.Second)
		d.loads()
		d.beats(loadsFor - 250*time.Millisecond) // the new one comes slowly
		vanish()
		time.Sleep(lostAfter - lookFor - 250*time.Millisecond)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.JogRelease}, d.run.asked())
		assert.False(t, d.state().Lost)
		time.Sleep(2*lookFor + 250*time.Millisecond)
		synctest.Wait()
		assert.Equal(t, []drive.RequestKind{drive.JogRelease, drive.Stop}, d.run.asked())
		assert.True(t, d.state().Lost)
	})
}

// A page that is loaded anew has its run back, under another claim, and a take that runs on
// under it is not stopped. While it is there, no copy of it gets the run.
func TestAPageThatIsLoadedAnewHasItsRunBack(t *testing.T) {
	driven(t, func(d driver) {
		again := func(claim string) (int, string) {
			w := d.post("/api/drive/again", map[string]any{"claim": claim})
			var got struct{ Claim string }
			require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
			return w.Code, got.Claim
		}
		d.s.stage.Enter(drive.Running)
		vanish := d.stays()
		code, _ := again(d.claim)
		assert.Equal(t, http.StatusConflict, code, "a copy of the page, which is still there")
		for _, claim := range []string{"", "x", string(newKey())} {
			code, _ = again(claim)
			assert.Equal(t, http.StatusLocked, code)
		}
		assert.Equal(t, http.StatusOK, d.do("finish"), "it drives as before")
		d.loads()
		vanish()
		time.Sleep(lostAfter / 2)
		was := d.claim
		code, d.claim = again(was)
		require.Equal(t, http.StatusOK, code)
		assert.NotEqual(t, was, d.claim)
		code, _ = again(was)
		assert.Equal(t, http.StatusLocked, code, "the old claim is worth nothing")
		assert.Equal(t, http.StatusLocked, d.post("/api/drive/beat", map[string]any{"claim": was}).Code)
		d.beats(time.Minute)
		assert.Equal(t, []drive.RequestKind{drive.Finish, drive.JogRelease}, d.run.asked(), "nothing was stopped")
		assert.Equal(t, "The page was loaded anew, and has the rig in hand again.", d.state().Said[0].Text)
		d.s.stage.Enter(drive.Ready)
		w := d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": "jog-hold", "speed": 2, "press": 1})
		assert.Contains(t, w.Body.String(), `"ok":true`, "it counts its presses from the beginning")
	})
}

// Whoever has the page open may stop the rig, whoever drives: once, and at once only while
// it slows down.
func TestAnyPageStops(t *testing.T) {
	driven(t, func(d driver) {
		stop := func(again bool) int {
			return d.post("/api/drive/stop", map[string]any{"again": again}).Code
		}
		d.s.stage.Enter(drive.Ready)
		assert.Equal(t, http.StatusOK, stop(true))
		assert.Empty(t, d.run.asked(), "nothing moves")
		assert.Empty(t, d.state().Said)
		d.s.stage.Enter(drive.Running)
		assert.Equal(t, http.StatusOK, stop(true), "it does not slow down yet")
		assert.Equal(t, http.StatusOK, stop(false))
		assert.Equal(t, http.StatusOK, d.do("stop"))
		assert.Equal(t, []drive.RequestKind{drive.Stop}, d.run.asked(), "of all of them, one")
		assert.Equal(t, "Another page stopped it.", d.state().Said[0].Text)
		d.s.stage.Enter(drive.Slowing)
		assert.Equal(t, http.StatusOK, stop(false))
		assert.Len(t, d.run.asked(), 1, "no abort without the second word")
		assert.Equal(t, http.StatusOK, stop(true))
		assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Stop}, d.run.asked())
		d.s.stage.Enter(drive.Resting)
		assert.Equal(t, http.StatusOK, stop(true))
		assert.Len(t, d.run.asked(), 2, "what rests is left alone")
		time.Sleep(2 * lostAfter)
		synctest.Wait()
		assert.True(t, d.state().Lost, "and it keeps no run alive")
		d.end()
		assert.Equal(t, http.StatusConflict, stop(false), "there is none")
	})
}

// An axis that is held by one page is let go of by the stop of another, for good.
func TestAnyPageStopsWhatIsHeld(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		hold := func() string {
			return d.post("/api/drive/do", map[string]any{"claim": d.claim, "request": "jog-hold", "speed": 2, "press": 1}).Body.String()
		}
		hold()
		d.s.stage.Jogged(drive.Jogged{Moving: true})
		d.post("/api/drive/stop", map[string]any{})
		assert.Equal(t, []drive.RequestKind{drive.JogHold, drive.Stop}, d.run.asked())
		assert.Contains(t, hold(), `"ok":false`)
	})
}
