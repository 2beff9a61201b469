package gltf_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// outsideVariable names the folder that npm has put gltf-validator into, the
// Khronos Group's own validator of glTF, and three, a general graphics library.
const outsideVariable = "SEAMRAIL_GLTF"

const validate = `
const [, folder, file] = process.argv;
const { validateBytes } = require(require('path').join(folder, 'node_modules', 'gltf-validator'));
validateBytes(new Uint8Array(require('fs').readFileSync(file)))
  .then(r => console.log(JSON.stringify(r)));
`

// ask runs a script of ours under node on a file of data, and reads the JSON that
// it prints.
func ask(t *testing.T, script string, data []byte, answer any) {
	t.Helper()
	folder := os.Getenv(outsideVariable)
	if folder == "" {
		t.Skipf("set %s to a folder with gltf-validator and three in it", outsideVariable)
	}
	file := filepath.Join(t.TempDir(), "move.glb")
	require.NoError(t, os.WriteFile(file, data, 0o600))
	var said bytes.Buffer
	node := exec.Command("node", "-e", script, folder, file)
	node.Stderr = &said
	out, err := node.Output()
	require.NoError(t, err, "node and its packages must be there:\n%s", said.String())
	require.NoError(t, json.Unmarshal(out, answer), string(out))
}

// verdict is what the validator says.
type verdict struct {
	Issues struct {
		NumErrors, NumWarnings, NumInfos, NumHints int
		Messages                                   []struct{ Code, Message, Pointer string }
	}
	Info struct {
		Version                                         string
		AnimationCount, DrawCallCount, TotalVertexCount int
	}
}

func judged(t *testing.T, data []byte) (v verdict) {
	t.Helper()
	ask(t, validate, data, &v)
	return v
}

// The validator has nothing to say, but that a table without a product is an
// empty node.
func TestValidator(t *testing.T) {
	fast := sample.Table(t)
	fast = sample.Turning(fast, exact.Int(13))
	box := lanternScene()
	box.Product = scene.Product{Shape: scene.Box, Width: scene.Is(60), Depth: scene.Is(30), Height: scene.Is(80)}
	bare := lanternScene()
	bare.Product = scene.Product{}
	for name, data := range map[string][]byte{
		"prism":           written(t, sample.Through(t), lanternScene()),
		"box":             written(t, sample.Long(t), box),
		"no product":      written(t, sample.Through(t), bare),
		"keys in between": written(t, sample.Make(t, 24, sample.Bench(rig.InverseTime), sample.Rail(t, "3-4-5", 2), fast), lanternScene()),
	} {
		v := judged(t, data)
		require.Equal(t, "2.0", v.Info.Version, name)
		require.Equal(t, 1, v.Info.AnimationCount, name)
		require.Zero(t, v.Issues.NumErrors+v.Issues.NumWarnings, name)
		for _, m := range v.Issues.Messages {
			require.Equal(t, "NODE_EMPTY", m.Code, name)
			require.Equal(t, "no product", name)
		}
	}
}

// It does find what is wrong: a byte of the times, which then go backwards.
func TestValidatorFinds(t *testing.T) {
	data := written(t, sample.Through(t), lanternScene())
	m := read(t, data)
	view := m.doc.BufferViews[*m.doc.Accessors[m.doc.Animations[0].Samplers[0].Input].BufferView]
	binary := len(data) - m.doc.Buffers[0].ByteLength // the last chunk of the file
	data[binary+view.ByteOffset+12*4+3] = 0           // the exponent of the time of frame 12
	v := judged(t, data)
	require.Positive(t, v.Issues.NumErrors)
	require.Contains(t, v.Issues.Messages[0].Code+v.Issues.Messages[len(v.Issues.Messages)-1].Code, "ANIMATION")
}
