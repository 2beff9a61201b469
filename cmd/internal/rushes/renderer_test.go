package rushes_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
)

const (
	// renderedVariable names the folder that npm has put three into, a general graphics library,
	// and puppeteer-core, which has it draw in Chromium.
	renderedVariable = "SEAMRAIL_RENDERED"
	// keptVariable names the folder in which rendered takes are kept, for whoever wants to look.
	keptVariable = "SEAMRAIL_RENDERED_KEPT"
)

// ordered is a take that is to be rendered.
type ordered struct {
	name string
	set
	filming
}

// order is what render.mjs reads.
type order struct {
	Width   int                `json:"width"`
	Height  int                `json:"height"`
	Product map[string]float64 `json:"product"`
	Takes   []wanted           `json:"takes"`
}

type wanted struct {
	Out    string     `json:"out"`
	Rate   string     `json:"rate"`
	View   float64    `json:"view"`
	Frames [][]moment `json:"frames"`
}

// render has takes drawn, all by one renderer, and returns their files.
func render(t *testing.T, takes ...ordered) (files []string) {
	t.Helper()
	folder := os.Getenv(renderedVariable)
	if folder == "" {
		t.Skipf("set %s to a folder with puppeteer-core and three in it", renderedVariable)
	}
	all := order{Width: wide, Height: high, Product: map[string]float64{"radius": radius, "height": 120}}
	to := cmp.Or(os.Getenv(keptVariable), t.TempDir())
	for _, o := range takes {
		w := wanted{Out: filepath.Join(to, o.name+".y4m"), Rate: rate(o.plan.CaptureRate), View: o.view}
		for n := range o.frames {
			w.Frames = append(w.Frames, o.frame(o.filming, n))
		}
		all.Takes, files = append(all.Takes, w), append(files, w.Out)
	}
	text, err := json.Marshal(all)
	require.NoError(t, err)
	node := exec.Command("node", "testdata/render/render.mjs", folder)
	node.Stdin = bytes.NewReader(text)
	began := time.Now()
	said, err := node.CombinedOutput()
	t.Logf("rendered in %.0f s", time.Since(began).Seconds())
	require.NoError(t, err, "node, its packages and Chromium must be there:\n%s", said)
	require.Empty(t, string(said))
	return files
}

// rate is how YUV4MPEG2 has frames a second.
func rate(r exact.Rat) string {
	if over, under, ok := strings.Cut(r.String(), "/"); ok {
		return over + ":" + under
	}
	return r.String() + ":1"
}
