// Package decoder reads film files through ffmpeg, where that is installed: ffprobe says what
// a file holds, and ffmpeg gives its luma as YUV4MPEG2, frame by frame, none left out and none
// made up. Turned the way that the file asks, as it is shown.
package decoder

import (
	"fmt"
	"path/filepath"
	"strings"
)

// Lookup finds a program, as exec.LookPath does.
type Lookup func(name string) (path string, err error)

// The programs of the decoder.
const (
	player = "ffmpeg"
	prober = "ffprobe"
)

// Missing is the error where a program of the decoder is not installed.
type Missing struct {
	File    string // that was to be read
	Program string
}

func (m *Missing) Error() string {
	return fmt.Sprintf("%s needs a decoder, and %s is not on the PATH; where ffmpeg is installed, \"%s\" makes a file that needs none, and neither do stills, animated PNG and other YUV4MPEG2", m.File, m.Program, strings.Join(Convert(m.File), " "))
}

// Convert is the command that makes of a film file one that is read without a decoder, as it
// is typed into a shell.
func Convert(file string) []string {
	base := filepath.Base(file)
	to := strings.TrimSuffix(base, filepath.Ext(base)) + ".y4m"
	return []string{player, "-i", quoted(plainly(file)), "-map", "0:v:0", "-fps_mode", "passthrough", "-strict", "-1", quoted(plainly(to))}
}

// plainly is a name that cannot be taken for a flag.
func plainly(file string) string {
	if strings.HasPrefix(file, "-") {
		return "./" + file
	}
	return file
}

// quoted is a word of a shell's command.
func quoted(word string) string {
	const plain = "-_./,+@%=:"
	for _, r := range word {
		if (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && !strings.ContainsRune(plain, r) {
			return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
		}
	}
	return word
}

// named is a file as an argument that is neither a flag nor any address but a file's.
func named(file string) string { return "file:" + file }

// find finds both programs.
func find(file string, look Lookup) (play, probe string, err error) {
	if play, err = look(player); err != nil {
		return "", "", &Missing{file, player}
	}
	if probe, err = look(prober); err != nil {
		return "", "", &Missing{file, prober}
	}
	return play, probe, nil
}
