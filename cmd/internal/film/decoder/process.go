package decoder

import (
	"context"
	"io"
	"os/exec"
	"time"
)

const (
	// patience is how long what a killed program leaves behind may hold its pipes.
	patience = time.Second
	// farewell is how long a program may take to end that has nothing more to give.
	farewell = 5 * time.Second
)

// process is a running decoder.
type process struct {
	cmd   *exec.Cmd
	out   io.Reader
	words *tail
	end   context.CancelFunc
	ended bool
	err   error // of its end
}

// start runs a program until it ends or ctx does.
func start(ctx context.Context, program string, args []string) (*process, error) {
	ctx, end := context.WithCancel(ctx)
	p := &process{cmd: exec.CommandContext(ctx, program, args...), words: &tail{}, end: end}
	p.cmd.Stderr, p.cmd.WaitDelay = p.words, patience
	out, err := p.cmd.StdoutPipe()
	if err == nil {
		p.out = out
		err = p.cmd.Start()
	}
	if err != nil {
		end()
		return nil, err
	}
	return p, nil
}

// wait is the error with which it ended by itself.
func (p *process) wait() error {
	if !p.ended {
		p.ended = true
		late := time.AfterFunc(farewell, p.end)
		p.err = p.cmd.Wait()
		late.Stop()
		p.end()
	}
	return p.err
}

// kill ends it if it runs, and waits until it is gone.
func (p *process) kill() {
	p.end()
	_ = p.wait() // it was killed
}

// allowed are the ways on which a file that names others may have them read: a list of what
// is to be played must not have this machine ask another for it.
const allowed = "file"

// arguments are those with which ffmpeg gives luma. Every frame is passed on as it is
// there: since version 5.1 that is said by fps_mode, before by vsync.
func arguments(file, filter string, old bool) []string {
	pass := []string{"-fps_mode", "passthrough"}
	if old {
		pass = []string{"-vsync", "0"}
	}
	args := []string{"-nostdin", "-v", "error", "-protocol_whitelist", allowed, "-i", named(file), "-map", "0:v:0", "-vf", filter}
	return append(append(args, pass...), "-f", "yuv4mpegpipe", "-strict", "-1", "-")
}
