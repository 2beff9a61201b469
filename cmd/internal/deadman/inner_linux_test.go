package deadman

// Kill ends the second process as nothing else does.
func (s *Switch) Kill() error { return s.cmd.Process.Kill() }
