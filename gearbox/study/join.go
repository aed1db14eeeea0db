package study

// player is one or several groups that change sides together.
type player struct {
	taken mask
	why   string
}

func (p player) groups() (all []Group) {
	for _, g := range Groups() {
		if p.taken.has(g) {
			all = append(all, g)
		}
	}
	return all
}

// join puts players together until no mixed box is left that can't be: each time the two whose separation fails most often.
func join(sets []mask, solved map[mask]mixture) []player {
	players := make([]player, len(sets))
	for i, s := range sets {
		players[i].taken = s
	}
	for {
		failures := func(i, j int) (parted int, why error) {
			for m, mix := range solved {
				if mix.err == nil || cuts(players, m) {
					continue
				}
				if a, b := m&players[i].taken != 0, m&players[j].taken != 0; a != b {
					parted++
					if why == nil || mix.err.Error() < why.Error() {
						why = mix.err
					}
				}
			}
			return parted, why
		}
		most, x, y := 0, 0, 0
		var reason error
		for i := range players {
			for j := range i {
				if n, why := failures(j, i); n > most {
					most, x, y, reason = n, j, i, why
				}
			}
		}
		if most == 0 {
			return players
		}
		players[x].taken |= players[y].taken
		if players[x].why == "" {
			players[x].why = reason.Error()
		}
		players = append(players[:y], players[y+1:]...)
	}
}

// cuts reports whether a set of groups takes some of a player's and leaves others, which doesn't happen once they are joined.
func cuts(players []player, m mask) bool {
	for _, p := range players {
		if part := m & p.taken; part != 0 && part != p.taken {
			return true
		}
	}
	return false
}
