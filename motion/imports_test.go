// Package motion_test keeps imports pointing one way: cmd knows all, export and
// plot know motion and not each other, motion knows neither files nor clocks.
package motion_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	module  = "seamrail"
	cobra   = "github.com/spf13/cobra"
	figures = "gonum.org/v1/plot"
)

// outside is what a package without input and output has no use for. time is
// there because no Duration holds a frame of 1001/24000 s, and no result may
// depend on when it was computed; the random sources for the same reason.
var outside = []string{"os", "net", "time", "io/fs", "io/ioutil", "path/filepath", "log", "flag", "syscall",
	"math/rand", "crypto/rand"}

// helpers are packages for tests only, which may look at golden files.
var helpers = []string{"motion/plan/sample", "cmd/internal/film/decoder/fake"}

// verifierNeeds is all of ours that the verifier stands on, whatever that stands on
// included: numbers, units, and what a motion tells of itself. No planner is among
// them, nor a track, a rig or a shot.
var verifierNeeds = []string{"motion/base/exact", "motion/base/unit", "motion/verify/trace"}

// reports are what reports hold.
var reports = []string{
	"export/report/connectreport", "export/report/filesreport", "export/report/fitreport", "export/report/groupreport", "export/report/indexpage", "export/report/measurereport", "export/report/musicreport", "export/report/picturereport", "export/report/planreport", "export/report/portsreport",
	"export/report/rampreport", "export/report/reachreport", "export/report/sequencereport", "export/report/shakereport", "export/report/softenreport", "export/report/spinreport",
}

// rule forbids imports to packages. Every path stands for itself and all below
// it; paths within the module are given from its root, "." being all of it.
type rule struct {
	why    string
	inside []string // whose imports it is about
	except []string // but not of these
	banned []string
	but    []string // banned, yet allowed
}

var rules = []rule{
	{why: "only cmd does input and output", inside: []string{"motion", "export", "plot"},
		except: append([]string{"export/drive"}, helpers...), banned: outside},
	{why: "drive waits, but is handed its clock, wire and files", inside: []string{"export/drive"},
		banned: outside, but: []string{"time"}},
	{why: "motion knows nothing of what is made from it", inside: []string{"motion"},
		banned: ours("export", "plot", "cmd")},
	{why: "the verifier hears of a motion only what can be told of it", inside: []string{"motion/verify"},
		banned: ours("."), but: ours(verifierNeeds...)},
	{why: "the ground floor stands on nothing of ours", inside: []string{"motion/base/exact", "motion/base/plain"}, banned: ours(".")},
	{why: "a fault needs no more than to be printed", inside: []string{"motion/base/fault"}, banned: ours("."), but: ours("motion/base/plain")},
	{why: "units and clocks need numbers only", inside: []string{"motion/base/unit", "motion/base/clock"}, banned: ours("."), but: ours("motion/base/exact")},
	{why: "lenses, lamps and places need numbers only", inside: []string{"motion/camera/optics", "motion/camera/light", "motion/camera/pose", "motion/camera/clearance"},
		banned: ours("."), but: ours("motion/base/exact", "motion/base/root")},
	{why: "music needs no shot", inside: []string{"motion/music"}, banned: ours("."), but: ours("motion/base")},
	{why: "a scene is values and where they stand", inside: []string{"motion/scene"}, banned: ours("."),
		but: ours("motion/base", "motion/camera/clearance", "motion/camera/light", "motion/camera/optics", "motion/camera/pose", "motion/fade", "motion/pull")},
	{why: "a rig needs no planner", inside: []string{"motion/spec/rig"},
		banned: ours("."), but: ours("motion/base", "motion/spec/rig", "motion/drivetrain/motor", "motion/law", "motion/turntable/spin", "motion/vibration/ringdown", "motion/vibration/spring")},
	{why: "a picture knows no shot", inside: []string{"motion/camera/picture"},
		banned: ours("motion/spec/shot", "motion/plan")},
	{why: "laws, tracks and rigs know no shot", inside: []string{"motion/law", "motion/track", "motion/spec/rig", "motion/vibration"},
		except: []string{"motion/vibration/lawfit", "motion/vibration/survey"}, // which are about a shot's
		banned: ours("motion/spec/shot", "motion/plan", "motion/verify", "motion/controller/segment")},
	{why: "a move and a fade know no shot", inside: []string{"motion/move", "motion/fade"},
		banned: ours("motion/spec/shot", "motion/plan", "motion/verify", "motion/controller/segment")},
	{why: "exports know nothing of figures and commands", inside: []string{"export"}, banned: ours("plot", "cmd")},
	{why: "drive knows no other export", inside: []string{"export/drive"},
		banned: ours("export"), but: ours("export/header", "export/drive")},
	{why: "the virtual rig shares no code with what it checks", inside: []string{"export/drive/virtual"},
		banned: ours("."), but: ours("export/drive", "motion/spec/rig")},
	{why: "the virtual rig reads the step player's page for itself", inside: []string{"export/drive/virtual"},
		banned: ours("export/drive/stepplayer", "export/drive/takelog")},
	{why: "exports know nothing of each other", inside: []string{"export"}, except: []string{"export/drive"},
		banned: ours("export"), but: ours("export/header", "export/report")},
	{why: "what a report holds is not how it is written", inside: reports,
		banned: []string{"io", "encoding/json", "html/template", "text/template"}},
	{why: "a calibration is readings and numbers", inside: []string{"motion/calibrate"}, banned: ours("."), but: ours("motion/base")},
	{why: "figures know nothing of exports and commands", inside: []string{"plot"}, banned: ours("export", "cmd")},
	{why: "only the command line knows its library", inside: []string{"."},
		except: []string{"cmd/internal/cli", "cmd/internal/manual"}, banned: []string{cobra}},
	{why: "the page and all else call what the commands call, and no command", inside: []string{"cmd/internal"},
		except: []string{"cmd/internal/cli"}, banned: ours("cmd/internal/cli")},
	{why: "a job knows nobody who asks for it, and not how it is written", inside: []string{"cmd/internal/job"},
		banned: ours("cmd/internal/format", "cmd/internal/session", "cmd/internal/page", "plot")},
	{why: "only plot draws", inside: []string{"."}, except: []string{"plot"}, banned: []string{figures}},
	{why: "main only starts the command line", inside: []string{"cmd/seamrail"},
		banned: ours("."), but: ours("cmd/internal/cli")},
	{why: "helpers of tests stay out of the program", inside: []string{"."}, except: helpers,
		banned: append(ours(helpers...), "testing", "github.com/invopop/jsonschema",
			"github.com/stretchr/testify", "pgregory.net/rapid")},
}

func ours(folders ...string) []string {
	out := make([]string, len(folders))
	for i, f := range folders {
		out[i] = path.Join(module, f)
	}
	return out
}

// within tells whether p is one of the paths or below one.
func within(p string, paths []string) bool {
	return slices.ContainsFunc(paths, func(top string) bool {
		return top == "." || p == top || strings.HasPrefix(p, top+"/")
	})
}

func (r rule) about(folder string) bool {
	return within(folder, r.inside) && !within(folder, r.except)
}

// breaks tells whether a package in folder may not import p. A package may
// always import what is below its own folder.
func (r rule) breaks(folder, p string) bool {
	return r.about(folder) && within(p, r.banned) && !within(p, r.but) && !within(p, ours(folder))
}

// imports maps each folder of the module to what its files, tests aside,
// import, and each import to one file that does.
func imports(t *testing.T, root string) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{}
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata"):
			return fs.SkipDir
		case d.IsDir(), !strings.HasSuffix(name, ".go"), strings.HasSuffix(name, "_test.go"):
			return nil
		}
		return addImports(out, root, name)
	})
	require.NoError(t, err)
	return out
}

func addImports(out map[string]map[string]string, root, name string) error {
	file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.ImportsOnly)
	if err != nil {
		return err
	}
	folder := path.Dir(name)
	if out[folder] == nil {
		out[folder] = map[string]string{}
	}
	for _, spec := range file.Imports {
		p, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		out[folder][p] = name
	}
	return nil
}

func TestImportsPointOneWay(t *testing.T) {
	found := imports(t, "..")
	for _, r := range rules {
		packages := 0
		for folder, list := range found {
			if r.about(folder) {
				packages++
			}
			for p, file := range list {
				assert.False(t, r.breaks(folder, p), "%s imports %s, but %s", file, p, r.why)
			}
		}
		assert.NotZero(t, packages, "no package is left that %q is about", r.why)
	}
}

// Each rule catches what it is for, and lets pass what it is not.
func TestRulesCatch(t *testing.T) {
	for _, c := range []struct {
		folder, imported string
		broken           bool
	}{
		{"motion/plan", "os", true},
		{"motion/plan", "os/exec", true},
		{"motion/plan", "net/http", true},
		{"motion/plan", "time", true},
		{"motion/plan", "math/rand/v2", true},
		{"motion/plan", "math", false},
		{"motion/plan", "seamrail/motion/track", false},
		{"motion/plan", "seamrail/export/header", true},
		{"motion/plan", "seamrail/plot/motionplot", true},
		{"motion/plan", "seamrail/cmd/internal/cli", true},
		{"motion/plan", cobra, true},
		{"motion/plan", figures + "/vg", true},
		{"motion/track", "gonum.org/v1/gonum/mat", false},
		{"motion/verify", "seamrail/motion/plan", true},
		{"motion/verify", "seamrail/motion/track", true},
		{"motion/verify", "seamrail/motion/law", true},
		{"motion/verify", "seamrail/motion/plan/trajectory", true},
		{"motion/verify", "seamrail/motion/verify/trace", false},
		{"motion/verify", "math", false},
		{"motion/base/exact", "seamrail/motion/base/unit", true},
		{"motion/base/clock", "seamrail/motion/spec/rig", true},
		{"motion/law", "seamrail/motion/plan", true},
		{"motion/scene", "seamrail/motion/camera/picture", true},
		{"motion/scene", "seamrail/motion/base/unit", false},
		{"motion/spec/rig", "seamrail/motion/vibration", true},
		{"motion/spec/rig", "seamrail/motion/vibration/spring", false},
		{"export/table/steps", "seamrail/export/header", false},
		{"export/table/steps", "seamrail/export/table/steps/digits", false},
		{"export/table/steps", "seamrail/export/table/frames", true},
		{"export/table/steps", "seamrail/plot/motionplot", true},
		{"export/table/steps", "os", true},
		{"export/table/steps", "time", true},
		{"export/report/spinreport", "io", true},
		{"export/report/spinreport", "seamrail/export/report/picturereport", false},
		{"export/report", "html/template", false},
		{"export/table/steps", "seamrail/export/report", false},
		{"export/drive", "time", false},
		{"export/drive", "os", true},
		{"export/drive", "seamrail/export/gcode", true},
		{"export/drive/virtual", "seamrail/export/drive", false},
		{"export/drive/virtual", "seamrail/export/gcode", true},
		{"export/drive/virtual", "seamrail/motion/controller/program", true},
		{"export/drive/virtual", "seamrail/export/drive/stepplayer", true},
		{"export/drive/virtual", "seamrail/motion/controller/segment", true},
		{"export/drive/virtual", "seamrail/motion/controller/firmware", true},
		{"export/gcode", "seamrail/export/drive", true},
		{"export/table/steps", "seamrail/motion/plan/sample", true},
		{"motion/plan/sample", "testing", false},
		{"plot/motionplot", "seamrail/export/header", true},
		{"plot/motionplot", figures, false},
		{"plot/motionplot", cobra, true},
		{"cmd/internal/cli", cobra, false},
		{"cmd/internal/page", "seamrail/cmd/internal/cli", true},
		{"cmd/internal/page", "seamrail/cmd/internal/format", false},
		{"cmd/internal/job", "seamrail/cmd/internal/format", true},
		{"cmd/internal/cli", figures, true},
		{"cmd/internal/atomicfile", cobra, true},
		{"cmd/internal/atomicfile", "os", false},
		{"cmd/seamrail", "seamrail/motion/plan", true},
		{"cmd/seamrail", "seamrail/cmd/internal/cli", false},
	} {
		broken := slices.ContainsFunc(rules, func(r rule) bool { return r.breaks(c.folder, c.imported) })
		assert.Equal(t, c.broken, broken, "%s imports %s", c.folder, c.imported)
	}
}

// TestNobodyReachesForThePlan: who needs frames or steps asks the trajectory, who needs
// the plan is given the plan. Only tests may ask a trajectory what it was made from.
func TestNobodyReachesForThePlan(t *testing.T) {
	looked := 0
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		looked++
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", name), nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) > 0 {
				return true
			}
			if s, ok := call.Fun.(*ast.SelectorExpr); ok {
				assert.NotEqual(t, "Plan", s.Sel.Name, "%s asks a trajectory for its plan", name)
			}
			return true
		})
		return nil
	})
	require.NoError(t, err)
	assert.Greater(t, looked, 500)
}

// TestTheVerifierStandsOnNoPlanner: imports of imports count, as the tool itself lists
// them.
func TestTheVerifierStandsOnNoPlanner(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", module+"/motion/verify").Output()
	require.NoError(t, err)
	var found []string
	for _, p := range strings.Fields(string(out)) {
		if rest, ok := strings.CutPrefix(p, module+"/"); ok && rest != "motion/verify" {
			found = append(found, rest)
		}
	}
	slices.Sort(found)
	assert.Equal(t, verifierNeeds, found)
}

// uncarried is what tests alone need, or what comes with a library and nobody calls: the
// maker of schemas, which are embedded, and a family of twelve typefaces.
var uncarried = []string{"github.com/invopop/jsonschema", figures,
	figures + "/font/liberation", "testing"}

// TestTheProgramCarriesWhatItUses: imports of imports count, as the tool itself lists
// them.
func TestTheProgramCarriesWhatItUses(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", module+"/cmd/seamrail").Output()
	require.NoError(t, err)
	carried := strings.Fields(string(out))
	assert.Contains(t, carried, figures+"/vg", "figures are drawn with it")
	for _, p := range uncarried {
		assert.NotContains(t, carried, p)
	}
}
