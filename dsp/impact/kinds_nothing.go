package impact

func ofNothing() []kind { return nil }

// nothing plays what is no shutter.
func (s *scene) nothing(play func(*scene)) { play(s); s.inOrder() }
