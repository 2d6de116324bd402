/** The arc template of an arm of 450 mm for grooves from 54 to 75 mm on Letter: three sheets; written as told.fixture.ts tells it. */
export const pivotSheets = `
Platterside arc template, 1 of 3, 215.9 279.4
arc 34 219.4 3.62 0 6.283
arc 34 219.4 0.6 0 6.283
line 28 219.4 40 219.4
line 34 213.4 34 225.4
text 34 228.4 middle: spindle: prick the cross,
text 34 231.837 middle: cut out to the circle, 7.24 mm
arc 34 -230.6 454.418 1.398 1.458
line 93.998 219.84 94.21 221.426
line 103.993 218.395 104.239 219.976
line 88.053 217.6 87.92 223.599
line 108.906 214.59 109.051 220.589
line 90.741 193.32 89.862 247.313
line 84.477 220.222 96.126 220.411
line 87.66 198.271 86.993 239.265 fine
line 93.659 198.368 92.992 239.363 fine
line 89.718 219.307 90.918 219.326
line 89.311 219.7 89.292 220.9
line 89.685 221.307 90.885 221.326
line 91.311 219.733 91.292 220.933
line 89.734 218.307 90.934 218.327
line 88.312 219.684 88.292 220.884
line 89.669 222.307 90.869 222.326
line 92.311 219.749 92.291 220.949
line 89.75 217.307 90.95 217.327
line 87.312 219.668 87.292 220.868
line 89.653 223.306 90.853 223.326
line 93.311 219.765 93.291 220.965
line 89.767 216.307 90.967 216.327
line 86.312 219.652 86.292 220.851
line 89.636 224.306 90.836 224.326
line 94.311 219.782 94.291 220.982
line 89.183 215.298 91.583 215.337
line 85.322 219.035 85.283 221.435
line 89.02 225.296 91.42 225.335
line 95.32 219.198 95.281 221.598
arc 90.301 220.317 23 1.5 1.674
line 91.933 243.259 92.089 245.453
line 91.532 243.284 91.596 244.482
line 91.131 243.302 91.174 244.501
line 90.73 243.313 90.752 244.512
line 90.329 243.317 90.33 244.517
line 89.927 243.314 89.891 245.513
line 89.526 243.303 89.485 244.503
line 89.125 243.286 89.063 244.485
line 88.724 243.262 88.642 244.46
line 88.324 243.231 88.221 244.427
line 87.924 243.193 87.697 245.382
text 89.82 249.913 middle turned 0.016: front
text 86.292 245.455 end turned 0.016: +5°
text 91.892 196.339 turned 0.016: rim
text 89.492 196.3 end turned 0.016: spindle
text 91.04 174.923 end turned 0.016: Inner null point: 56.31 mm from the spindle
text 90.98 178.622 end turned 0.016: Tip on the cross, cantilever along the
text 90.927 181.922 end turned 0.016: middle line, cartridge sides parallel to the
text 90.873 185.221 end turned 0.016: long lines. Ticks on the cross 1 mm:
text 90.819 188.521 end turned 0.016: miss along and across. Tick scale in
text 90.765 191.82 end turned 0.016: front 1°: turn of the cartridge.
line 104.51 191.249 105.389 245.241
line 99.125 218.34 110.774 218.15
line 101.592 196.297 102.259 237.291 fine
line 107.591 196.199 108.258 237.194 fine
line 104.333 217.255 105.533 217.235
line 103.94 217.661 103.959 218.861
line 104.366 219.255 105.566 219.235
line 105.939 217.629 105.959 218.829
line 104.317 216.255 105.517 216.235
line 102.94 217.678 102.959 218.877
line 104.382 220.254 105.582 220.235
line 106.939 217.612 106.959 218.812
line 104.301 215.255 105.5 215.236
line 101.94 217.694 101.96 218.894
line 104.398 221.254 105.598 221.235
line 107.939 217.596 107.959 218.796
line 104.284 214.255 105.484 214.236
line 100.94 217.71 100.96 218.91
line 104.415 222.254 105.614 222.235
line 108.939 217.58 108.959 218.78
line 103.668 213.265 106.068 213.226
line 99.931 217.127 99.97 219.526
line 103.831 223.264 106.231 223.225
line 109.929 216.964 109.968 219.363
arc 104.949 218.245 23 1.467 1.642
line 107.327 241.122 107.554 243.31
line 106.927 241.16 107.03 242.355
line 106.527 241.191 106.609 242.388
line 106.126 241.215 106.188 242.413
line 105.725 241.232 105.766 242.431
line 105.324 241.242 105.36 243.442
line 104.922 241.245 104.921 242.445
line 104.521 241.241 104.499 242.441
line 104.12 241.23 104.076 242.429
line 103.719 241.212 103.654 242.41
line 103.318 241.187 103.162 243.381
text 105.431 247.841 middle turned -0.016: front
text 101.76 243.5 end turned -0.016: +5°
text 105.759 194.229 turned -0.016: rim
text 103.359 194.268 end turned -0.016: spindle
text 104.21 172.851 turned -0.016: Outer null point: 70.96 mm from the spindle
text 104.271 176.55 turned -0.016: Tip on the cross, cantilever along the
text 104.324 179.85 turned -0.016: middle line, cartridge sides parallel to the
text 104.378 183.15 turned -0.016: long lines. Ticks on the cross 1 mm:
text 104.432 186.449 turned -0.016: miss along and across. Tick scale in
text 104.485 189.749 turned -0.016: front 1°: turn of the cartridge.
text 42 36 size 5: Platterside arc template
text 42 42: Drawn for: Löfgren A: equal peaks. Grooves from 54 to 75 mm radius (own).
text 42 46.813: Spindle to pivot 450.00 mm, effective length 454.42 mm, overhang 4.42 mm, offset 8.05°. Null points at 56.31 and 70.96
text 42 50.25: mm. Second harmonic at most 0.04 % for 10 cm/s peak lateral at 45 rpm.
text 42 55.063: How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle and turn it until the
text 42 58.5: sight line points at the centre of the pivot; tape it down. 3. The tip must follow the long arc from the innermost to the
text 42 61.938: outermost groove: slide the cartridge forward if the tip stays inside the arc (on the pivot’s side), back if it swings beyond it.
text 42 65.375: 4. At each null point the cartridge must be parallel to the long lines: twist it.
text 42 70.188: Or read how far the tip misses a cross, along (towards the headshell’s front positive) and across (towards the rim positive),
text 42 73.625: and the twist (clockwise seen from above positive), and the move is worked out for you.
text 42 78.438: Before use: power off and amplifier muted, platter still (hold it), stylus guard on until the tip is over the template; lower the
text 42 81.875: tip by the lift. Never twist the arm against its bearings: loosen the screws and move the cartridge.
text 42 86.688: Corrected for a printer that makes 99.4 mm of 100 mm across and 100.2 mm down: both bars must now measure 100.0
text 42 90.125: mm.
line 201.9 36 201.9 136
line 198.9 36 204.9 36
line 201.9 46 202.9 46
line 201.9 56 202.9 56
line 201.9 66 202.9 66
line 201.9 76 202.9 76
line 201.9 86 203.9 86
line 201.9 96 202.9 96
line 201.9 106 202.9 106
line 201.9 116 202.9 116
line 201.9 126 202.9 126
line 198.9 136 204.9 136
text 200.3 86 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
line 50 267.4 150 267.4
line 50 264.4 50 270.4
line 60 266.4 60 267.4
line 70 266.4 70 267.4
line 80 266.4 80 267.4
line 90 266.4 90 267.4
line 100 265.4 100 267.4
line 110 266.4 110 267.4
line 120 266.4 120 267.4
line 130 266.4 130 267.4
line 140 266.4 140 267.4
line 150 264.4 150 270.4
text 100 270.6 middle: 100 mm across, between the long ticks: lay a steel ruler here before use
text 84.987 223.6 end: innermost groove 54 mm
text 119.978 210.09 middle: outermost groove
text 119.978 213.527 middle: 75 mm
text 113.965 217.08: tip follows this arc
line 34 211.4 34 8
text 32.6 109.7 middle turned -1.571: sight line: must point at the centre of the pivot, 450.00 mm from the spindle
arc 16 20 2.5 0 6.283
line 11 20 21 20
line 16 15 16 25
text 22 19: join A1
arc 199.9 20 2.5 0 6.283
line 194.9 20 204.9 20
line 199.9 15 199.9 25
text 193.9 19 end: join A2

Platterside arc template, 2 of 3, 215.9 279.4
line 34 271.4 34 16.8
text 32.6 144.1 middle turned -1.571: sight line: must point at the centre of the pivot, 450.00 mm from the spindle
arc 16 259.4 2.5 0 6.283
line 11 259.4 21 259.4
line 16 254.4 16 264.4
text 22 258.4: join A1
arc 199.9 259.4 2.5 0 6.283
line 194.9 259.4 204.9 259.4
line 199.9 254.4 199.9 264.4
text 193.9 258.4 end: join A2
arc 16 20 2.5 0 6.283
line 11 20 21 20
line 16 15 16 25
text 22 19: join B1
arc 199.9 20 2.5 0 6.283
line 194.9 20 204.9 20
line 199.9 15 199.9 25
text 193.9 19 end: join B2
line 201.9 36 201.9 136
line 198.9 36 204.9 36
line 201.9 46 202.9 46
line 201.9 56 202.9 56
line 201.9 66 202.9 66
line 201.9 76 202.9 76
line 201.9 86 203.9 86
line 201.9 96 202.9 96
line 201.9 106 202.9 106
line 201.9 116 202.9 116
line 201.9 126 202.9 126
line 198.9 136 204.9 136
text 200.3 86 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
line 50 22 150 22
line 50 19 50 25
line 60 21 60 22
line 70 21 70 22
line 80 21 80 22
line 90 21 90 22
line 100 20 100 22
line 110 21 110 22
line 120 21 120 22
line 130 21 130 22
line 140 21 140 22
line 150 19 150 25
text 100 25.2 middle: 100 mm across, between the long ticks: lay a steel ruler here before use

Platterside arc template, 3 of 3, 215.9 279.4
line 34 271.4 34 256.2
arc 16 259.4 2.5 0 6.283
line 11 259.4 21 259.4
line 16 254.4 16 264.4
text 22 258.4: join B1
arc 199.9 259.4 2.5 0 6.283
line 194.9 259.4 204.9 259.4
line 199.9 254.4 199.9 264.4
text 193.9 258.4 end: join B2
line 28 248.2 40 248.2
line 34 242.2 34 254.2
arc 34 248.2 2 0 6.283
text 42 40: Platterside arc template, page 3 of 3: the pivot. Lay each join cross on its fellow on the page before, hold both against the
text 42 43.438: light, tape them.
text 42 48.25: Drawn for: Löfgren A: equal peaks. Grooves from 54 to 75 mm radius (own).
text 42 53.063: Spindle to pivot 450.00 mm, effective length 454.42 mm, overhang 4.42 mm, offset 8.05°. Null points at 56.31 and 70.96
text 42 56.5: mm. Second harmonic at most 0.04 % for 10 cm/s peak lateral at 45 rpm.
text 42 61.313: Cut the paper away where the arm’s base is: what matters is that the sight line points at the pivot’s centre.
line 201.9 36 201.9 136
line 198.9 36 204.9 36
line 201.9 46 202.9 46
line 201.9 56 202.9 56
line 201.9 66 202.9 66
line 201.9 76 202.9 76
line 201.9 86 203.9 86
line 201.9 96 202.9 96
line 201.9 106 202.9 106
line 201.9 116 202.9 116
line 201.9 126 202.9 126
line 198.9 136 204.9 136
text 200.3 86 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
line 50 22 150 22
line 50 19 50 25
line 60 21 60 22
line 70 21 70 22
line 80 21 80 22
line 90 21 90 22
line 100 20 100 22
line 110 21 110 22
line 120 21 120 22
line 130 21 130 22
line 140 21 140 22
line 150 19 150 25
text 100 25.2 middle: 100 mm across, between the long ticks: lay a steel ruler here before use
text 43 249: centre of the pivot: cut the paper away round the arm’s base
`;
