package page

import (
	"context"
	"math"
	"net/http"
	"path/filepath"

	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// View is a planned shot as the page draws it. Frames are captured ones from
// frame 0; places mm or degrees.
type View struct {
	Title      string    `json:"title"`
	Plan       string    `json:"plan"` // hash of the motion
	Frames     int64     `json:"frames"`
	CaptureHz  float64   `json:"captureHz"`
	PlaybackHz float64   `json:"playbackHz"`
	LoopScreen float64   `json:"loopScreenSeconds"`
	LoopReal   float64   `json:"loopRealSeconds"`
	Timeline   int64     `json:"timelineFrames"`
	Rounds     int       `json:"rounds"`
	ByFrame    bool      `json:"byFrame"`  // the rig rests for each frame
	SyncMark   bool      `json:"syncMark"` // the rig tells the camera when it is
	Every      int64     `json:"every"`    // captured frames from one place of an axis to the next
	Sketch     bool      `json:"sketch"`   // the picture was looked at in some of its frames, and nothing was looked for that would do
	Axes       []Axis    `json:"axes"`
	Stands     []Stand   `json:"stands"`
	Above      *TopView  `json:"above"` // null where the shot has no scene to draw
	Verdicts   []Verdict `json:"verdicts"`
	Headline   Headline  `json:"headline"`
	ByHand     []string  `json:"byHand"`   // what is set and pressed on a rig that nothing is sent to; empty for one that is driven
	Cautions   []string  `json:"cautions"` // what to know before such a rig moves; one that is driven tells them as it is opened
	Values     []Value   `json:"values"`
	Loop       Handle    `json:"loop"`
	Takes      []Value   `json:"takes"`   // what each table that is there could have besides
	Adds       []Thing   `json:"adds"`    // what can be added
	Removes    []Thing   `json:"removes"` // what can be taken out
}

// Axis is one axis over the loop.
type Axis struct {
	Name       string      `json:"name"`
	Unit       string      `json:"unit"`
	Kind       string      `json:"kind"`
	Move       string      `json:"move"`
	Moves      []Move      `json:"moves"` // that it can have
	Law        string      `json:"law,omitempty"`
	Pos        []float64   `json:"pos"`
	SpeedLimit float64     `json:"speedLimit"` // units a real second; 0 where none is stated
	Travel     *[2]float64 `json:"travel"`     // null where it is endless
	Handles    []Handle    `json:"handles"`
	MoveKeys   []Value     `json:"moveKeys"`
	Places     []Place     `json:"places"` // what its place can be marked as
}

// Stand is a display stand that turns by itself.
type Stand struct {
	Name    string    `json:"name"`
	Degrees []float64 `json:"pos"`
	Off     float64   `json:"off"` // degrees past its face at the seam
	Bound   float64   `json:"bound"`
}

// view plans a text for the page, but for what the controller makes of it. A
// quick one leaves out what would fit instead.
func (s *desk) view(ctx context.Context, text string, quick bool) (*View, error) {
	to := whole
	if quick {
		to = sketched
	}
	p, err := s.plannedTo(ctx, text, to)
	if err != nil {
		return nil, err
	}
	t := p.Trajectory
	loop := p.Plan.Loop
	v := &View{
		Title: p.Plan.Title, Plan: p.Plan.Hash(), Frames: t.Captured(), CaptureHz: t.Clock().Capture.Float(), PlaybackHz: t.Clock().Playback.Float(),
		LoopScreen: loop.OnScreen().Float(), LoopReal: loop.Real().Float(), Timeline: loop.Screen, Rounds: p.Plan.Rounds, ByFrame: p.Schedule != nil, SyncMark: p.Shot.SyncMark != nil,
		Every: every(t.Captured(), quick), Sketch: quick, Axes: []Axis{}, Stands: []Stand{}, Above: topView(p, quick), ByHand: listOf(p.Plan.Presses(), func(s string) string { return s }), Cautions: []string{}, Values: values(p.Shot),
	}
	if len(v.ByHand) > 0 {
		v.Cautions = planreport.Cautions(p.Plan, p.Schedule)
	}
	v.Loop = Handle{Path: loopPath, Kind: "loop", Vary: move.VaryTime, Frame: float64(v.Frames), Label: "length of the loop", Unit: "frames"}
	for i := range t.AxisCount() {
		v.Axes = append(v.Axes, axisOf(p, i, v))
	}
	for i := range t.StandCount() {
		v.Stands = append(v.Stands, standOf(p, i, v))
	}
	v.Verdicts = verdicts(ctx, p, p.Glanced, quick)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	v.Headline = headlineOf(p.Glanced, v.Verdicts)
	shapeable(p, v, quick)
	return v, nil
}

// maxPlaces is more places of an axis than a curve has pixels across, and maxGlanced about
// as many as it has in a small window: with each step of a drag they are sampled, sent and drawn.
const (
	maxPlaces  = 2400
	maxGlanced = 480
)

// placeGrains are what places are rounded to, in a mm or a degree: a hundredth of what the
// page writes of them, and far less than a pixel.
const placeGrains = 10_000

func drawn(place float64) float64 { return rounded(place, placeGrains) }

// rounded is a number in so many grains to one, with no digit behind them.
func rounded(x, grains float64) float64 { return math.Round(x*grains) / grains }

func every(captured int64, quick bool) int64 {
	if quick {
		return captured/(maxGlanced+1) + 1
	}
	return captured/(maxPlaces+1) + 1
}

// sampled calls f with each captured frame that is drawn, the seam included.
func sampled(v *View, f func(frame int64)) {
	for k := int64(0); k < v.Frames; k += v.Every {
		f(k)
	}
	f(v.Frames)
}

func axisOf(p *job.Job, i int, v *View) Axis {
	t := p.Trajectory
	a, m := t.Axis(i), p.Plan.Axes[i].Move
	out := Axis{
		Places: placesOf(p, a.Name),
		Name:   a.Name, Unit: a.Unit(), Kind: a.Kind.String(), Move: m.Kind(), SpeedLimit: speedLimit(a),
		Handles: handles(p, i), MoveKeys: moveKeys(v.Values, m),
	}
	if out.Handles == nil {
		out.Handles = []Handle{}
	}
	if l := m.Law(); l != nil {
		out.Law = l.Name()
	}
	if !a.Endless {
		out.Travel = &[2]float64{a.Min, a.Max}
	}
	shown, each := t.Shown().Float(), t.FrameSeconds(1).Float()
	sampled(v, func(k int64) {
		sec := min(float64(k)*each, shown)
		if k == v.Frames {
			sec = shown
		}
		out.Pos = append(out.Pos, drawn(t.Position(i, sec)))
	})
	return out
}

func speedLimit(a rig.Axis) float64 {
	if math.IsInf(a.MaxSpeed, 1) {
		return 0
	}
	return a.MaxSpeed
}

func standOf(p *job.Job, i int, v *View) Stand {
	t := p.Trajectory
	s := t.Stand(i)
	out := Stand{Name: s.Name, Off: s.Off.Float(), Bound: s.Bound.Float()}
	first, turn := t.StandAngle(i, 0).Float(), s.Rate.Mul(t.FrameSeconds(1)).Float() // it turns evenly, as the verifier sees to
	sampled(v, func(k int64) { out.Degrees = append(out.Degrees, drawn(first+float64(k)*turn)) })
	return out
}

// moveKeys are the values of an axis' move: those that are there, and those it
// could have.
func moveKeys(have []Value, m shot.AxisMove) []Value {
	group := source.Join("axis", m.Name)
	out := []Value{}
	there := map[string]bool{}
	for _, v := range have {
		if v.Group == group {
			out, there[v.Label] = append(out, withLaws(v)), true
		}
	}
	for _, key := range move.KeysOf(m.Does) {
		if v, ok := absent(group, key); ok && !there[key] {
			out = append(out, withLaws(v))
		}
	}
	return out
}

// withLaws gives a law its choices, which no schema lists.
func withLaws(v Value) Value {
	if v.Label == "law" || v.Label == "back-law" {
		v.Choices = law.Names()
	}
	return v
}

// Curve is the shape of a law: shares of time and of travel, and its pace as a
// multiple of the mean.
type Curve struct {
	Name  string       `json:"name"`
	Words string       `json:"words"`
	Curve [][2]float64 `json:"curve"`
	Pace  [][2]float64 `json:"pace"`
}

// curvePieces is enough for a small picture of a law.
const curvePieces = 40

func lawCurves() []Curve {
	var out []Curve
	for _, l := range law.All() {
		c := Curve{Name: l.Name(), Words: lawWords[l.Name()]}
		for i := range curvePieces + 1 {
			u := float64(i) / curvePieces
			at := l.At(u)
			c.Curve = append(c.Curve, [2]float64{u, at.S})
			c.Pace = append(c.Pace, [2]float64{u, at.V})
		}
		out = append(out, c)
	}
	return out
}

// Start is what the page begins with.
type Start struct {
	File     string  `json:"file"`
	Folder   string  `json:"folder"`
	Text     string  `json:"text"`
	Revision string  `json:"revision"`
	New      bool    `json:"new"` // there is no file yet; saving makes it
	Title    string  `json:"title"`
	Version  string  `json:"version"`
	RigFile  string  `json:"rigFile"`
	RigText  string  `json:"rigText"`
	Laws     []Curve `json:"laws"`
	Virtual  bool    `json:"virtual"`
	Ports    []Port  `json:"ports"`
	Drafts   []Draft `json:"drafts"` // what tabs have not saved, the newest first
}

func (s *desk) start(w http.ResponseWriter, _ *http.Request) {
	d, err := s.doc.disk()
	if err != nil {
		if d, err = s.doc.unsaved(err); err != nil {
			fail(w, err)
			return
		}
	}
	out := Start{
		File: s.doc.name, Folder: filepath.Base(absolute(s.doc.root.Name())), Text: d.Text, Revision: d.Revision, New: d.Revision == "",
		Title: s.doc.name, Version: s.version, Laws: s.curves, Virtual: true, Ports: ports(), Drafts: s.doc.drafts(d),
	}
	if x, err := s.doc.files().Decode(s.doc.name, []byte(d.Text), nil); err == nil {
		out.Title, out.RigFile = x.Title, s.doc.rigName(x)
		if data, err := s.doc.read(out.RigFile); err == nil && s.doc.rig == nil {
			out.RigText = string(data)
		}
	}
	reply(w, http.StatusOK, out)
}

func absolute(dir string) string {
	if abs, err := filepath.Abs(dir); err == nil {
		return abs
	}
	return dir
}

// Port is a serial port and what the system knows of it.
type Port struct {
	Name  string `json:"name"`
	About string `json:"about"`
}

// ports are the serial ports of this machine, none where the system does not tell.
func ports() []Port {
	list, _ := host.Ports()
	return listOf(list, func(p host.PortFacts) Port { return Port{Name: p.Name, About: p.About()} })
}
