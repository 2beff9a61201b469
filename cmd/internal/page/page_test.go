package page

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"image"
	_ "image/jpeg"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive/wirelog"
	"seamrail/export/report"
	"seamrail/export/report/planreport"
)

// pageSoon is far more than anything here takes on a busy machine.
const pageSoon = 30 * time.Second

// browser is a page of the starter's shot as a browser would ask it.
type browser struct {
	t       *testing.T
	dir     string
	address string
	key     string
	text    string
}

// browsed opens a page on the starter's shot in a folder of its own.
func browsed(t *testing.T) *browser {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(name, starter.Shot(), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o600))
	s, err := Open(Options{Shot: name, Version: "test"})
	require.NoError(t, err)
	served := make(chan error, 1)
	go func() { served <- s.Serve() }()
	t.Cleanup(func() {
		assert.NoError(t, s.Close())
		assert.NoError(t, <-served)
	})
	b := &browser{t: t, dir: dir, text: string(starter.Shot())}
	b.address, b.key, _ = strings.Cut(s.Address(), "/#once=")
	var given struct{ Key string }
	_, _ = b.asked("key", nil, &given) // with the word in place of the key
	require.NotEmpty(t, given.Key)
	b.key = given.Key
	return b
}

// ask posts a question and returns what comes back; the caller closes it.
func (b *browser) ask(what string, question any) *http.Response {
	b.t.Helper()
	data, err := json.Marshal(question)
	require.NoError(b.t, err)
	r, err := http.NewRequest(http.MethodPost, b.address+"/api/"+what, bytes.NewReader(data))
	require.NoError(b.t, err)
	r.Header.Set("Seamrail-Key", b.key)
	answer, err := http.DefaultClient.Do(r)
	require.NoError(b.t, err)
	return answer
}

// asked posts a question and reads the answer into v, unless that is nil.
func (b *browser) asked(what string, question, v any) (status int, body string) {
	b.t.Helper()
	answer := b.ask(what, question)
	defer func() { _ = answer.Body.Close() }()
	data, err := io.ReadAll(answer.Body)
	require.NoError(b.t, err)
	if v != nil {
		require.NoError(b.t, json.Unmarshal(data, v), "%s", data)
	}
	return answer.StatusCode, string(data)
}

type m = map[string]any

// planned plans a text with edits.
func (b *browser) planned(text string, quick bool, edits ...m) Answer {
	b.t.Helper()
	var out Answer
	status, body := b.asked("plan", m{"text": text, "edits": edits, "quick": quick}, &out)
	require.Equal(b.t, http.StatusOK, status, body)
	return out
}

// maxPlanned is ten times what a change of the demo may take from question to
// plan: tests of other packages run meanwhile, and some runs look for races. What
// it takes to the screen is measured by the test in a browser, which runs alone.
const maxPlanned = 500 * time.Millisecond

// A hand that drags must see the plan follow. A machine that does other work
// besides is given a few goes.
func TestThePagePlansAsAHandDrags(t *testing.T) {
	b := browsed(t)
	quickest := time.Hour
	for i := range 20 {
		began := time.Now()
		a := b.planned(b.text, true, m{"path": "axis.rail.to", "frame": 66.0, "pos": 90 + float64(i)})
		quickest = min(quickest, time.Since(began))
		require.NotNil(t, a.View, "%v", a.Faults)
		require.InDelta(t, 90+float64(i), slices.Max(a.View.Axes[0].Pos), 1.0/placeGrains)
	}
	t.Logf("planned in %v", quickest)
	assert.Less(t, quickest, maxPlanned)
}

// What the page shows is what the commands say.
func TestThePageSaysWhatTheCommandsSay(t *testing.T) {
	b := browsed(t)
	v := b.planned(b.text, false).View
	var x Follows
	status, body := b.asked("controller", m{"text": b.text}, &x)
	require.Equal(t, http.StatusOK, status, body)
	assert.True(t, x.Headline.Ready, x.Headline.Words)
	require.NotEmpty(t, x.Verdicts)
	j, err := job.Source{Shot: filepath.Join(b.dir, starter.ShotName)}.Job(nil)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, report.Text(&out, format.Told(j).Report(), false)) // which is all that the plan command prints
	said := strings.Join(strings.Fields(out.String()), " ")
	assert.Contains(t, said, x.Headline.Stamp+" "+x.Headline.Words, "one headline")
	for _, v := range x.Verdicts {
		for _, part := range strings.Split(v.Text, "; ") {
			assert.Contains(t, said, part)
		}
	}
	assert.True(t, v.Headline.Ready)
	assert.Equal(t, j.Plan.Hash(), v.Plan)
	c := j.Trajectory.Captured()
	require.Len(t, v.Axes, j.Trajectory.AxisCount())
	for i, a := range v.Axes {
		require.Len(t, a.Pos, int(c)+1)
		for _, k := range []int64{0, 1, c / 2, c - 1} {
			assert.InDelta(t, j.Trajectory.Frame(k).States[i].Pos, a.Pos[k], 1.0/placeGrains)
		}
	}
	assert.Len(t, v.Above.Drags, 5, "two ends, the product, two lamps")
}

// Each drag gives the values that put the thing where it was let go.
func TestDragsPutThingsWhereTheyAreLetGo(t *testing.T) {
	b := browsed(t)
	for _, c := range []struct {
		edit m
		want []string
	}{
		{m{"path": "axis.rail.to", "pos": 123.44}, []string{`to        = "123.4 mm"`}},
		{m{"path": "axis.rail.to", "pos": 999.0}, []string{`to        = "400 mm"`}}, // the end of its travel
		{m{"path": "axis.rail.from", "pos": 20.0}, []string{`from      = "20 mm"`}},
		{m{"path": "axis.rail.dwell-far", "frame": 82.0}, []string{`dwell-far = "20 frames"`}}, // both legs give way: (144-20)/2 + 20
		{m{"path": "axis.rail.dwell-far", "frame": 10.0}, []string{`dwell-far = "0 frames"`}},
		{m{"path": "axis.rail.dwell-near", "frame": 140.0}, []string{`dwell-near = "4 frames"`}},
		{m{"path": "axis.table.turns", "pos": 121.0}, []string{`turns    = "1/3"`}},
		{m{"path": "axis.table.turns", "pos": 1.0}, []string{`turns    = "1/6"`}}, // it goes somewhere
		{m{"path": "axis.table.turns", "pos": -50.0}, []string{`turns    = "-1/6"`}},
		{m{"path": "clock.loop", "frame": 120.2}, []string{`loop     = "120 frames"`}},
		{m{"path": "above.carriage[2]", "x": 33.0, "y": -364.0}, []string{`to        = "130 mm"`}}, // 454 - 364 past 40
		{m{"path": "above.product", "x": 12.0, "y": 46.0}, []string{`distance = "500 mm"`, `aside = "-12 mm"`}},
		{m{"path": "above.lamp[1]", "x": 300.0, "y": 0.0}, []string{`distance = "346.4 mm"`, `bearing  = "90 deg"`}}, // 300/cos 30
		{m{"path": "above.lamp[2]", "x": 0.0, "y": 400.0}, []string{`bearing  = "180 deg"`}},
	} {
		a := b.planned(b.text, true, c.edit)
		require.Empty(t, a.Faults, "%v", c.edit)
		for _, want := range c.want {
			assert.Contains(t, a.Text, want, "%v", c.edit)
		}
		require.NotNil(t, a.View)
	}
	for _, path := range []string{"axis.rail.law", "axis.none.to", "above.lamp[3]", "above.", "", "take.rounds"} {
		a := b.planned(b.text, true, m{"path": path, "pos": 1.0, "frame": 1.0, "x": 1.0, "y": 1.0})
		assert.NotEmpty(t, a.Faults, path)
		assert.Equal(t, b.text, a.Text)
	}
}

// A scene of which next to nothing is known has nothing to drag, and says so.
func TestAnEmptySceneHasNothingToDrag(t *testing.T) {
	b := browsed(t)
	bare := strings.NewReplacer("focal-length ", "# focal-length ", "distance ", "# distance ").Replace(b.text)
	v := b.planned(bare, true)
	require.NotNil(t, v.View, "%v", v.Faults)
	a := b.planned(bare, true, m{"path": "above.lamp[1]", "x": 1.0, "y": 1.0})
	require.NotEmpty(t, a.Faults)
	assert.Contains(t, a.Faults[0].Text, "nothing that can be dragged")
}

// What breaks a limit turns, and each thing that would fit does.
func TestWhatWouldFitFits(t *testing.T) {
	b := browsed(t)
	broken := b.planned(b.text, false, m{"path": "axis.rail.to", "value": "390 mm"})
	require.NotNil(t, broken.View)
	assert.False(t, broken.View.Headline.Ready)
	tried := 0
	for _, v := range broken.View.Verdicts {
		if v.Level != "bad" || v.Axis != "rail" {
			continue
		}
		require.NotEmpty(t, v.Fits, v.Name)
		for _, f := range v.Fits {
			require.NotEmpty(t, f.Edits, f.Text)
			var edits []m
			for _, e := range f.Edits {
				edits = append(edits, m{"path": e.Path, "value": e.Value})
			}
			a := b.planned(broken.Text, true, edits...)
			require.NotNil(t, a.View, f.Text)
			for _, w := range a.View.Verdicts {
				assert.False(t, w.bars || w.Axis == "rail" && w.Level == bad, "%s: %s", f.Text, w.Text)
			}
			tried++
		}
	}
	assert.Positive(t, tried)
}

// A broken shot says where, and gives its text back.
func TestABrokenShotIsSaid(t *testing.T) {
	b := browsed(t)
	a := b.planned(strings.Replace(b.text, `"100 mm"`, `"100 parsec"`, 1), true)
	assert.Nil(t, a.View)
	require.NotEmpty(t, a.Faults)
	assert.Equal(t, starter.ShotName, a.Faults[0].File)
	assert.Equal(t, 1+strings.Count(b.text[:strings.Index(b.text, `"100 mm"`)], "\n"), a.Faults[0].Line)
	assert.Positive(t, a.Faults[0].Column)
	assert.Contains(t, a.Text, "parsec")
}

// The frames of a preview come in order, each whole.
func TestPreviewStreamsFrames(t *testing.T) {
	b := browsed(t)
	answer := b.ask("preview", m{"text": b.text, "width": 64, "from": 10, "to": 20, "every": 2})
	defer func() { _ = answer.Body.Close() }()
	require.Equal(t, http.StatusOK, answer.StatusCode)
	assert.Equal(t, "from=10 to=20 every=2 of=144", answer.Header.Get("Seamrail-Frames"))
	assert.Len(t, pictures(t, answer.Body), 5)
	status, _ := b.asked("preview", m{"text": b.text, "width": 1 << 20}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status)
}

// pictures are the frames of a stream.
func pictures(t *testing.T, body io.Reader) (out []image.Image) {
	t.Helper()
	for r := bufio.NewReader(body); ; {
		var size uint32
		if err := binary.Read(r, binary.LittleEndian, &size); err != nil {
			require.ErrorIs(t, err, io.EOF)
			return out
		}
		picture, kind, err := image.Decode(io.LimitReader(r, int64(size)))
		require.NoError(t, err)
		assert.Equal(t, "jpeg", kind)
		assert.Equal(t, image.Pt(64, 36), picture.Bounds().Size())
		out = append(out, picture)
	}
}

// Frames that are picked come in the order in which they are, with the edits made; one
// beyond the loop is its last.
func TestPreviewDrawsThePickedFrames(t *testing.T) {
	b := browsed(t)
	picked := func(edits []m, frames ...int64) []image.Image {
		answer := b.ask("preview", m{"text": b.text, "edits": edits, "width": 64, "frames": frames, "beside": true})
		defer func() { _ = answer.Body.Close() }()
		require.Equal(t, http.StatusOK, answer.StatusCode)
		assert.Equal(t, fmt.Sprintf("picked=%d of=144", len(frames)), answer.Header.Get("Seamrail-Frames"))
		return pictures(t, answer.Body)
	}
	far := picked(nil, 66, 0, 143, 9999)
	require.Len(t, far, 4)
	assert.NotEqual(t, far[0], far[1])
	assert.Equal(t, far[1], picked(nil, 0)[0])
	assert.Equal(t, far[2], far[3])
	nearer := picked([]m{{"path": "axis.rail.to", "frame": 66.0, "pos": 70.0}}, 66, 0)
	assert.NotEqual(t, far[0], nearer[0], "the end was dragged")
	assert.Equal(t, far[1], nearer[1], "and not the beginning")
}

// What is asked beside a plan says nothing of what is wrong: the plan does.
func TestPreviewBesideAFaultyPlanIsEmpty(t *testing.T) {
	b := browsed(t)
	for beside, want := range map[bool]int{true: http.StatusNoContent, false: http.StatusUnprocessableEntity} {
		status, _ := b.asked("preview", m{"text": "shot = 1", "width": 64, "frames": []int64{0}, "beside": beside}, nil)
		assert.Equal(t, want, status)
	}
	status, _ := b.asked("preview", m{"text": b.text, "width": 64, "frames": make([]int64, maxPicked+1)}, nil)
	assert.GreaterOrEqual(t, status, http.StatusBadRequest, "too many at once")
}

func TestAnswersOfTheCommands(t *testing.T) {
	b := browsed(t)
	var spin, cues, failed m
	status, _ := b.asked("spin", m{"text": b.text}, &spin)
	assert.Equal(t, http.StatusOK, status)
	assert.Equal(t, "seamrail-spin/1", spin["schema"])
	_, _ = b.asked("cues", m{"text": b.text}, &cues)
	assert.Contains(t, cues["text"], "brass bead")
	for _, flags := range []m{{"output": "x.png"}, {"rig": "/etc/passwd"}, {"json": "false"}, {"between": "1 parsec,2 s"}} {
		status, _ = b.asked("spin", m{"text": b.text, "flags": flags}, &failed)
		assert.Equal(t, http.StatusUnprocessableEntity, status, "%v", flags)
	}
	status, body := b.asked("export", m{"text": b.text, "form": "json"}, nil)
	assert.Equal(t, http.StatusOK, status)
	assert.Contains(t, body, planreport.Schema)
	status, _ = b.asked("export", m{"text": b.text, "form": "../x"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status)
	broken := b.planned(b.text, true, m{"path": "axis.rail.to", "value": "390 mm"}).Text
	status, body = b.asked("export", m{"text": broken, "form": "gcode"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status, "a plan that the rig cannot do is not written")
	assert.Contains(t, body, "nothing was written")
}

// An editor that changes the file is seen, and what it wrote told.
func TestAnEditorsChangeIsSeen(t *testing.T) {
	b := browsed(t)
	news := b.watch("")
	require.Contains(t, news(func(x m) bool { return x["disk"] != nil })["disk"], "revision")
	theirs := strings.Replace(b.text, `"100 mm"`, `"95 mm"`, 1)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, starter.ShotName), []byte(theirs), 0o600))
	disk, _ := news(func(x m) bool { return x["disk"] != nil })["disk"].(m)
	assert.Equal(t, theirs, disk["text"])
	require.NoError(t, os.Remove(filepath.Join(b.dir, starter.ShotName)))
	disk, _ = news(func(x m) bool { return x["disk"] != nil })["disk"].(m)
	assert.Contains(t, disk["error"], "is no longer there")
}

// watch opens the stream and returns what waits for a line of it.
func (b *browser) watch(revision string) func(wanted func(m) bool) m {
	answer := b.ask("watch", m{"revision": revision})
	b.t.Cleanup(func() { _ = answer.Body.Close() })
	lines := bufio.NewScanner(answer.Body)
	lines.Buffer(nil, 1<<20)
	return func(wanted func(m) bool) m {
		b.t.Helper()
		for end := time.Now().Add(pageSoon); time.Now().Before(end) && lines.Scan(); {
			var x m
			require.NoError(b.t, json.Unmarshal(lines.Bytes(), &x))
			if wanted(x) {
				return x
			}
		}
		b.t.Fatal("it never came")
		return nil
	}
}

func TestTheVirtualRigIsDrivenFromThePage(t *testing.T) {
	b := browsed(t)
	news := b.watch("")
	var claim m
	status, body := b.asked("drive/open", m{"text": b.text, "port": "virtual", "fast": true, "countIn": 0}, &claim)
	require.Equal(t, http.StatusOK, status, body)
	last := news(func(x m) bool {
		d, ok := x["drive"].(m)
		return ok && d["ended"] != nil
	})["drive"].(m)
	assert.Equal(t, false, last["open"])
	assert.Contains(t, last["ended"], "finished, 1 take; where the rig stands is known")
	passes, _ := last["passes"].([]any)
	require.Len(t, passes, 1)
	assert.Equal(t, "finished", passes[0].(m)["end"])
	assert.InDelta(t, passes[0].(m)["planned"], passes[0].(m)["lasted"], 0.005)
	var takes struct{ Takes []Take }
	_, _ = b.asked("takes", m{}, &takes)
	require.Len(t, takes.Takes, 1)
	assert.True(t, takes.Takes[0].Virtual)
	_, body = b.asked("takes", m{"mark": m{"note": "steam just right", "keep": true}}, nil)
	assert.Contains(t, body, "of which there is no film")

	log := filepath.Join(b.dir, "lantern.takes.jsonl")
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	metal := strings.ReplaceAll(string(text), `,"virtual":true`, "")
	require.NoError(t, os.WriteFile(log, []byte(metal), 0o600))
	_, _ = b.asked("takes", m{"mark": m{"note": "steam just right", "keep": true}}, &takes)
	require.Len(t, takes.Takes, 1)
	assert.False(t, takes.Takes[0].Virtual)
	assert.True(t, takes.Takes[0].Keep)
	assert.Equal(t, []string{"steam just right"}, takes.Takes[0].Notes)
	_, _ = b.asked("takes", m{"mark": m{"reject": "the glass rang", "clip": "A001C004.mov"}}, &takes)
	assert.Equal(t, []any{false, "the glass rang", "A001C004.mov"}, []any{takes.Takes[0].Keep, takes.Takes[0].Why, takes.Takes[0].Clip})
	_, body = b.asked("takes", m{"mark": m{"clip": "a/b"}}, nil)
	assert.Contains(t, body, "has folders in it")
}

// What goes over the wire of a run is downloaded once it is over, and plays back as its
// board with nothing but what is in it; two passes of a group are held against each other.
func TestTheWireIsKeptFromThePage(t *testing.T) {
	b := browsed(t)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, "song.csv"), []byte("name,time\nsplash,1\n"), 0o600))
	b.text += "\n[music]\nmarkers = \"song.csv\"\n"
	news := b.watch("")
	status, _ := b.asked("drive/wire", m{}, nil)
	assert.Equal(t, http.StatusNotFound, status)
	for _, pass := range []string{"light", "plate"} {
		status, body := b.asked("drive/open", m{"text": b.text, "port": "virtual", "fast": true, "countIn": 0, "keepWire": true, "group": "plates", "pass": pass}, nil)
		require.Equal(t, http.StatusOK, status, body)
		last := news(func(x m) bool { d, ok := x["drive"].(m); return ok && d["ended"] != nil && d["wire"] == true })["drive"].(m)
		assert.Contains(t, last["ended"], "finished, 1 take")
	}
	status, text := b.asked("drive/wire", m{}, nil)
	require.Equal(t, http.StatusOK, status)
	rec, err := wirelog.Read("page", strings.NewReader(text))
	require.NoError(t, err)
	dir := t.TempDir()
	for _, f := range rec.Files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, f.Name), f.Text, 0o600))
	}
	o := session.Options{Source: job.Source{Shot: filepath.Join(dir, rec.Words[1])}}
	j, err := o.Source.Job(nil)
	require.NoError(t, err)
	assert.NoError(t, session.Play(o, j, rec))

	var told struct{ Text string }
	status, body := b.asked("takes/group", m{"text": b.text, "group": "plates"}, &told)
	require.Equal(t, http.StatusOK, status, body)
	assert.Contains(t, told.Text, "NOT KNOWN WELL ENOUGH  These passes are apart by")
	status, body = b.asked("drive/open", m{"text": b.text, "port": "virtual", "fast": true, "group": "plates"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status)
	assert.Contains(t, body, "say which this is")
}

func TestWhatCannotBeRunIsNotDriven(t *testing.T) {
	b := browsed(t)
	stills := "[clock]\nplayback = \"24\"\nloop = \"6 frames\"\n[frame-by-frame]\nexposure = \"1/4 s\"\nhand = \"1 s\"\n[rig.axis.rail]\nletter = \"X\"\ntravel = [\"0 mm\", \"400 mm\"]\nspeed = \"400 mm/s\"\nacceleration = \"3000 mm/s2\"\nsteps = \"80 per mm\"\n[axis.rail]\nfrom = \"40 mm\"\nto = \"42 mm\"\n"
	refused, why := b.asked("drive/open", m{"text": stills, "port": "virtual", "endless": true}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, refused)
	assert.Contains(t, why, "a take frame by frame ends with its last frame, and this one has 6")
	broken := b.planned(b.text, true, m{"path": "axis.rail.to", "value": "390 mm"}).Text
	status, body := b.asked("drive/open", m{"text": broken, "port": "virtual"}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status)
	assert.Contains(t, body, "the plan breaks")
	status, body = b.asked("drive/open", m{"text": b.text, "port": filepath.Join(b.dir, "none")}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status, "a port that is not there: %s", body)
	status, _ = b.asked("drive/open", m{"text": b.text, "port": "virtual", "fast": true}, nil)
	assert.Equal(t, http.StatusOK, status, "and the page may drive all the same")
}

// The page goes while the rig runs, in real time: it slows down and rests where
// it is known to be.
func TestLosingThePageStopsTheVirtualRig(t *testing.T) {
	if testing.Short() {
		t.Skip("the rig runs in real time")
	}
	b := browsed(t)
	news := b.watch("")
	var got struct{ Claim string }
	_, _ = b.asked("drive/open", m{"text": b.text, "port": "virtual", "countIn": 0, "endless": true}, &got)
	do := func(request string) {
		status, body := b.asked("drive/do", m{"claim": got.Claim, "request": request}, nil)
		require.Equal(t, http.StatusOK, status, body)
	}
	in := func(state string) m {
		b.t.Helper()
		return news(func(x m) bool { d, ok := x["drive"].(m); return ok && d["state"] == state })["drive"].(m)
	}
	closed, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		for {
			select {
			case <-closed:
				return
			case <-time.After(250 * time.Millisecond): // as the page does
				_, _ = b.asked("drive/beat", m{"claim": got.Claim}, nil)
			}
		}
	}()
	in("position unknown")
	do("home")
	in("ready")
	do("go")
	in("cautions")
	do("confirm")
	in("running")
	close(closed) // nothing is heard of the page
	<-gone
	began := time.Now()
	assert.Equal(t, true, in("slowing down")["lost"])
	assert.GreaterOrEqual(t, time.Since(began), 700*time.Millisecond, "a page that was heard of lately is not lost")
	in("held")
	t.Logf("held %v after it was last heard of", time.Since(began).Round(time.Millisecond))
	status, _ := b.asked("drive/beat", m{"claim": got.Claim}, nil)
	assert.Equal(t, http.StatusOK, status, "the page comes again")
	do("quit")
	assert.Contains(t, news(func(x m) bool { d, ok := x["drive"].(m); return ok && d["ended"] != nil })["drive"].(m)["ended"], "is known")
}
