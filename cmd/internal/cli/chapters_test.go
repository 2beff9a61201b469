package cli_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/guide"
)

// wrong are the commands of the chapters that end with another code than 0, as they say.
var wrong = map[string]int{
	`seamrail plan --loop "2 s"`:                 1,
	`seamrail plan --rig two/bench-rail.toml`:    2,
	`seamrail plot --loop "2 s" -o too-fast.png`: 1,
}

// words splits a command as a shell would, double quotes and all.
func words(command string) (out []string) {
	for i, part := range strings.Split(command, `"`) {
		if i%2 == 1 {
			out = append(out, part)
			continue
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}

// ofMetal makes what a rig of software has run takes of one of metal.
func ofMetal(t *testing.T, log string) {
	t.Helper()
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(log, []byte(metal(string(text))), 0o600))
}

// atTheEndOf is how a fragment of a chapter begins that goes to the end of a file, whose
// name ends the line.
const atTheEndOf = "# at the end of "

// typed runs a command of a chapter in a folder and returns what it printed, or writes a
// fragment to the end of a file.
func typed(t *testing.T, dir, line string) string {
	t.Helper()
	if rest, fragment := strings.CutPrefix(line, atTheEndOf); fragment {
		name, text, _ := strings.Cut(rest, "\n")
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_APPEND|os.O_WRONLY, 0)
		require.NoError(t, err)
		_, err = f.WriteString("\n" + text)
		require.NoError(t, errors.Join(err, f.Close()))
		return ""
	}
	args := words(line)
	require.Equal(t, "seamrail", args[0], line)
	log := filepath.Join(dir, "my-shot", "lantern.takes.jsonl")
	if _, err := os.Stat(log); err == nil && args[1] == "takes" { // nothing but a take of a rig of metal has a mark
		ofMetal(t, log)
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	code := 0
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		code = failed.ExitCode()
	} else {
		require.NoError(t, err, line)
	}
	assert.Equal(t, wrong[line], code, "%s: %s", line, out)
	if i := slices.Index(args, "-o"); len(out) == 0 && i > 0 {
		assert.FileExists(t, filepath.Join(dir, args[i+1]))
	} else {
		assert.NotEmpty(t, out, line)
	}
	return string(out)
}

// seen wants lines in what was printed, in their order. One that ends in dots goes on there.
func seen(t *testing.T, text string, lines []string) {
	t.Helper()
	for _, l := range lines {
		_, after, found := strings.Cut(text, strings.TrimSuffix(l, " ..."))
		if assert.True(t, found, "%q is not seen, or not here, in:\n%s", l, text) {
			text = after
		}
	}
}

// written is a chapter as it is written.
func written(t *testing.T, c guide.Chapter) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "guide", "chapters", c.Name+".md"))
	require.NoError(t, err)
	return string(text)
}

// step is what a chapter has typed, one command after the other, and what is then seen.
type step struct{ typed, seen []string }

// steps are those of a chapter, in order.
func steps(t *testing.T, text string) []step {
	t.Helper()
	out := []step{{}}
	fence := ""
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		now := &out[len(out)-1]
		language, fenced := strings.CutPrefix(line, "```")
		command, indented := strings.CutPrefix(line, "    ")
		switch {
		case fenced && language == "":
			fence = ""
		case fence == "toml" && strings.HasPrefix(line, atTheEndOf):
			out, fence = append(out, step{typed: []string{line + "\n"}}), atTheEndOf
		case fence == atTheEndOf:
			now.typed[0] += line + "\n"
		case fenced:
			require.Contains(t, []string{"sees", "toml", "drawing"}, language)
			fence = language
		case fence == "sees":
			now.seen = append(now.seen, line)
		case fence == "" && indented && now.seen != nil:
			out = append(out, step{typed: []string{command}})
		case fence == "" && indented:
			now.typed = append(now.typed, command)
		}
	}
	return out
}

// Whatever a chapter has typed runs, in a folder of its own and with what it says first
// to write, and prints what the chapter says is seen.
func TestChaptersRun(t *testing.T) {
	for _, c := range guide.Chapters() {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			dir, text := t.TempDir(), written(t, c)
			if !strings.Contains(text, "    seamrail new my-shot\n") {
				typed(t, dir, "seamrail new my-shot")
			}
			for _, s := range steps(t, text) {
				printed := ""
				for _, l := range s.typed {
					printed += typed(t, dir, l)
				}
				seen(t, printed, s.seen)
			}
		})
	}
}

// said runs the program on a command line.
func said(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs strings.Builder
	require.Zero(t, cli.Run(command.Streams{Out: &out, Err: &errs}, args), errs.String())
	return out.String()
}

// Help shows every chapter, and lists all of them and every command; a command has the
// help of its own, and leads to its chapter.
func TestHelpShowsTheGuide(t *testing.T) {
	all := said(t, "help")
	commands := cli.NewRoot(command.Streams{}).Commands()
	require.NotEmpty(t, commands)
	for _, c := range commands {
		assert.Contains(t, all, "\n  "+c.Name()+" ")
		assert.NotEmpty(t, c.GroupID, c.Name())
		_, both := guide.Find(c.Name())
		assert.False(t, both, "%s is a chapter and a command", c.Name())
	}
	assert.NotContains(t, all, "Additional Commands")
	for _, c := range guide.Chapters() {
		assert.Contains(t, all, "\n  "+c.Name+" ")
		assert.True(t, strings.HasPrefix(said(t, "help", c.Name), c.Title()+"\n\n"))
		assert.Equal(t, said(t, "help", c.Name), said(t, append([]string{"help"}, strings.Fields(c.Title())...)...))
		for _, about := range c.About {
			help := said(t, about, "--help")
			assert.Contains(t, help, "\nUsage:\n  seamrail "+about)
			assert.True(t, strings.HasSuffix(help, "\n  seamrail help "+c.Name+"\n"), about)
		}
	}
}

// What is not there is named with what is, or the nearest of it.
func TestHelpSaysWhatThereIs(t *testing.T) {
	for args, want := range map[string]string{
		"nosuch": "first-loop, bring-up, rig, moves", "drivin": `"driving"`, "plam": `"plan"`, "drive nosuch": `"seamrail drive" has no command`, "rig plan": `no command "rig plan", nor such a chapter`,
	} {
		var out, errs strings.Builder
		assert.Equal(t, 2, cli.Run(command.Streams{Out: &out, Err: &errs}, append([]string{"help"}, strings.Fields(args)...)), args)
		assert.Contains(t, errs.String(), want)
		assert.Empty(t, out.String())
	}
}

func TestHelpCompletesChapters(t *testing.T) {
	for _, c := range guide.Chapters() {
		assert.Contains(t, said(t, "__complete", "help", ""), c.Name+"\t"+c.Short+"\n")
	}
	assert.NotContains(t, said(t, "__complete", "help", "rig", ""), "driving")
}
