package main

const aboutSymptoms = `Every shutter is invented and has at most one thing wrong, at a grade that a bench worker
would call clear (common practice, no source). Told the speeds and how many were fired at
each, it is judged by the standard policy; a symptom counts as found where the shutter is
given its name, at whichever speed. By sound (package ` + "`dsp/synth`" + `, which shares nothing with
detection) one shutter in four sits in a reflex body, the speeds are 1 to 1/30, echo lasts
0.25 to 0.45 s, and the click stands 30 to 40 dB over a room's noise. How far its blades
start softly, how it is wound and how loudly its escapement buzzes is drawn for each. A
share of 60 is known to some 3 % (standard error at 95 %).
`

const aboutSimulated = `The same ailments, 3,000 shutters each: the firings are drawn instead of heard, with what
single firings show of blades and buzz, scattering as it does by sound (levels by 0.7 to
1.4 dB, leads by 0.03 to 0.2 stop), times by 0.004 to 0.04 stop from firing to firing and
0.05 from speed to speed. This tells how the rules do where hearing does all it can.
`

const aboutBeats = `Beats are counted in firings of 0.1 s or more. The error is that of the rate early and late
in a firing against what was made there; a buzz that is not heard over the noise is not
counted. The last column is of single firings, not of shutters.
`

const aboutUnfound = `- A falter in a firing that the opening's echo still covers, or one at the very end.
- A falter where the buzz lies under the noise: see the row of weak buzzes.
- A falter in a speed that is erratic for it: the firings are then called erratic, and the
  reason names the falter. The order of symptoms asks for that.
- A falter in a firing that by chance, or as the shutter frees up, is as short as the others:
  while an escapement stands still the firing grows longer, and what does not is taken for
  something else that was heard.
- Blades that stick for a moment and then strike as hard as ever: what comes long before
  such a strike can't be told from another sound.
- Blades that are lazy in most firings of a clip: they are compared with each other, and
  nothing else is known of how loud they should be. Bouncing open is told by itself.
- An opening and a closing both weaker by the same: that is what distance does.
- An escapement that runs fast: the name is for one that is slow. Deviations tell.
- Uneven steps with fewer than four speeds, or where the edge leaves more than 1/3 stop open.
- The beats of an escapement slowed to fewer than 28 a second, and with them a slow
  escapement where its buzz is weak.
- A fault of a firing whose speed is in doubt, which is left out, where not just as many
  were heard at each speed as were told. That it hangs open is told all the same.
- An opening that hangs in a reflex body while its mirror still rings over it: a closing
  soon after would not be heard either, so that it did not close is not sure.
- Which end of a movement was timed, where one end of a firing is drawn out: its start then
  lies further from its stop than in the others, and the duration can be off by that. A lazy
  shutter may so be called erratic at 1/15 and 1/30 too.
`
