/** Plans of arms from above; written as told.fixture.ts tells it. */
export const planAtItsNull = `
Arm from above: 222.0 mm to the pivot, 239.3 mm effective length, 354.597 379.028
arc 162.05 216.978 150.05 0 6.283 body width 0.8
arc 162.05 216.978 146.05 0 6.283 groove width 0.4
arc 162.05 216.978 60.325 0 6.283 groove width 0.4
arc 162.05 216.978 3.62 0 6.283 width 0.8
line 162.05 216.978 310.597 52 soft width 0.4 dash 3 3
arc 310.597 52 239.296 1.664 2.052 soft width 0.6
arc 205.26 266.864 2.6 0 6.283 accent width 0.7
text 200.26 268.864 end size 6 accent: 66.0
arc 261.202 286.142 2.6 0 6.283 accent width 0.7
text 256.202 288.142 end size 6 accent: 120.9
line 323.027 20.353 237.006 239.366 width 1.6
polygon 242.899 246.169, 206.617 277.595, 194.832 263.99, 231.114 232.563 width 0.6
polygon 228.638 257.198, 209.742 273.566, 199.266 261.472, 218.163 245.104 width 0.6
line 214.33 259.008 201.48 270.138 width 0.6
arc 310.597 52 12 0 6.283 width 0.6
line 307.597 52 313.597 52 width 0.4
line 310.597 49 310.597 55 width 0.4
arc 205.26 266.864 1.2 0 6.283 accent width 0.6
text 156.05 218.978 end size 6 soft: spindle
text 310.597 36 middle size 6 soft: pivot
`;

export const planAsItStands = `
Arm from above: 222.0 mm to the pivot, 239.3 mm effective length, 383.283 409.786
arc 172 237.786 160 0 6.283 body width 0.8
arc 172 237.786 146.05 0 6.283 groove width 0.4
arc 172 237.786 60.325 0 6.283 groove width 0.4
arc 172 237.786 3.62 0 6.283 width 0.8
line 172 237.786 320.547 72.808 soft width 0.4 dash 3 3
arc 320.547 72.808 239.296 1.664 2.052 soft width 0.6
line 350.906 20.049 263.987 258.98 soft width 1.6 dash 2 2
polygon 272.75 261.03, 261.814 307.768, 244.287 303.666, 255.224 256.929 soft width 0.6 dash 2 2
polygon 267.675 278.329, 261.979 302.671, 246.4 299.026, 252.096 274.683 soft width 0.6 dash 2 2
line 257.152 288.19 253.278 304.743 soft width 0.6 dash 2 2
arc 339.283 52 12 0 6.283 soft width 0.6 dash 2 2
line 336.283 52 342.283 52 soft width 0.4 dash 2 2
line 339.283 49 339.283 55 soft width 0.4 dash 2 2
arc 254.418 299.875 1.2 0 6.283 soft width 0.6
line 330.205 40.209 264.505 261.977 width 1.6
polygon 273.135 264.534, 259.5 310.557, 242.242 305.444, 255.876 259.421 width 0.6
polygon 267.063 281.508, 259.962 305.479, 244.621 300.934, 251.722 276.964 width 0.6
line 255.984 290.742 251.155 307.042 width 0.6
arc 320.547 72.808 12 0 6.283 width 0.6
line 317.547 72.808 323.547 72.808 width 0.4
line 320.547 69.808 320.547 75.808 width 0.4
arc 252.575 302.247 1.2 0 6.283 accent width 0.6
text 166 239.786 end size 6 soft: spindle
text 320.547 56.808 middle size 6 soft: pivot
`;
