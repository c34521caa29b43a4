package tank

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// stored is the brine of a storage tank that can correct another tank.
type stored struct {
	tank     string
	strength quantity.Strength
	volume   quantity.Volume
}

// stockFor looks in the yard for what brings brine of a strength to target, where stock was asked for and none was
// named: of the storage tanks with plain brine on the other side of the target the one that is furthest from it, so that
// the least is needed. The tank that is corrected is none of them.
func stockFor(s *run.Session, tank string, r brine.CorrectRequest) (stored, error) {
	var best stored
	var seen []string
	now, err := s.Standing()
	if err != nil {
		return best, err
	}
	for _, t := range now.StorageTanks() {
		if t.Liquid == nil || t.Name == tank || t.Held() <= t.DeadVolume {
			continue
		}
		w, plain := t.Liquid.Strength()
		if !plain {
			continue
		}
		seen = append(seen, t.Name+" "+w.In(s.View.System).String())
		works := r.Strength > r.Target && w < r.Target || r.Strength < r.Target && w > r.Target
		if works && (best.tank == "" || further(w, best.strength, r.Target)) {
			best = stored{t.Name, w, t.Held() - t.DeadVolume}
		}
	}
	if best.tank == "" {
		side := "above"
		if r.Strength > r.Target {
			side = "below"
		}
		held := "there is none"
		if len(seen) > 0 {
			held = "there is " + strings.Join(seen, ", ")
		}
		return best, fault.Refuse("--with stock: no storage tank holds brine %s %v; %s; allowed: --stock with the strength of other brine", side, r.Target.In(s.View.System), held)
	}
	return best, nil
}

func further(a, b, from quantity.Strength) bool {
	return max(a-from, from-a) > max(b-from, from-b)
}

// saltInStorage says that salt which was asked for does not dissolve in a storage tank; nothing for another tank or
// additive.
func saltInStorage(t yard.Tank, with brine.Additive, c brine.Correction) string {
	if with != brine.AddSalt || !isStorage(t) || c.Additive != brine.AddSalt {
		return ""
	}
	return t.Name + " is a storage tank, where salt lies on the floor undissolved: send part of it over the bed of a mixing tank and back, " +
		"or add stronger brine (--with stock)."
}

func isStorage(t yard.Tank) bool { return t.Name != "" && !t.Mixing }

// moveFromStorage says what is done with a weak storage tank, on the floor of which salt would lie undissolved; nothing
// for another tank, or where something else is added or was asked for.
func moveFromStorage(y *yard.Yard, t yard.Tank, with brine.Additive, c brine.Correction) string {
	if with != brine.AnyAdditive || !isStorage(t) || c.Additive != brine.AddSalt {
		return ""
	}
	mixer := "a mixing tank"
	if all := y.MixingTanks(); len(all) > 0 {
		mixer = all[0].Name
	}
	return "send part of it over the bed of " + mixer + " and back, or add stronger brine (--with stock)"
}

// note names the tank that the stock comes from, and whether there is enough.
func (f stored) note(v show.View, c brine.Correction) string {
	text := v.Say("The stock is the %v brine of %s.", f.strength, f.tank)
	if c.Stock > f.volume {
		text = v.Say("The stock is the %v brine of %s, and the suction reaches %v of it: less than it takes.", f.strength, f.tank, f.volume)
	}
	return text
}
