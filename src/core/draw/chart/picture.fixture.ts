/** Curves as the picture of a document's charts, whole. */
export const picture = `
<svg xmlns="http://www.w3.org/2000/svg" width="760" height="1160" viewBox="0 0 760 1160" font-family="sans-serif" font-size="12" role="img">
<title>Curves</title>
<rect width="100%" height="100%" fill="#ffffff"/>
<g transform="translate(0 0)">
<text x="56" y="16" fill="#1b2330" font-weight="bold" font-size="13">Spectrum</text>
<text x="740.0" y="16.0" fill="#525b69" text-anchor="end">left (solid) · right (dashed)</text>
<line x1="56.0" y1="224.8" x2="740.0" y2="224.8" stroke="#d8d2c3"/>
<text x="49.0" y="228.8" fill="#525b69" text-anchor="end">−4</text>
<line x1="56.0" y1="199.3" x2="740.0" y2="199.3" stroke="#d8d2c3"/>
<text x="49.0" y="203.3" fill="#525b69" text-anchor="end">−2</text>
<line x1="56.0" y1="173.8" x2="740.0" y2="173.8" stroke="#d8d2c3"/>
<text x="49.0" y="177.8" fill="#525b69" text-anchor="end">0</text>
<line x1="56.0" y1="148.4" x2="740.0" y2="148.4" stroke="#d8d2c3"/>
<text x="49.0" y="152.4" fill="#525b69" text-anchor="end">2</text>
<line x1="56.0" y1="122.9" x2="740.0" y2="122.9" stroke="#d8d2c3"/>
<text x="49.0" y="126.9" fill="#525b69" text-anchor="end">4</text>
<line x1="56.0" y1="97.4" x2="740.0" y2="97.4" stroke="#d8d2c3"/>
<text x="49.0" y="101.4" fill="#525b69" text-anchor="end">6</text>
<line x1="56.0" y1="72.0" x2="740.0" y2="72.0" stroke="#d8d2c3"/>
<text x="49.0" y="76.0" fill="#525b69" text-anchor="end">8</text>
<line x1="56.0" y1="46.5" x2="740.0" y2="46.5" stroke="#d8d2c3"/>
<text x="49.0" y="50.5" fill="#525b69" text-anchor="end">10</text>
<line x1="56.0" y1="238.0" x2="56.0" y2="243.0" stroke="#d8d2c3"/>
<text x="56.0" y="256.0" fill="#525b69" text-anchor="middle">20</text>
<line x1="146.7" y1="238.0" x2="146.7" y2="243.0" stroke="#d8d2c3"/>
<text x="146.7" y="256.0" fill="#525b69" text-anchor="middle">50</text>
<line x1="215.4" y1="238.0" x2="215.4" y2="243.0" stroke="#d8d2c3"/>
<text x="215.4" y="256.0" fill="#525b69" text-anchor="middle">100</text>
<line x1="284.0" y1="238.0" x2="284.0" y2="243.0" stroke="#d8d2c3"/>
<text x="284.0" y="256.0" fill="#525b69" text-anchor="middle">200</text>
<line x1="374.7" y1="238.0" x2="374.7" y2="243.0" stroke="#d8d2c3"/>
<text x="374.7" y="256.0" fill="#525b69" text-anchor="middle">500</text>
<line x1="443.4" y1="238.0" x2="443.4" y2="243.0" stroke="#d8d2c3"/>
<text x="443.4" y="256.0" fill="#525b69" text-anchor="middle">1k</text>
<line x1="512.0" y1="238.0" x2="512.0" y2="243.0" stroke="#d8d2c3"/>
<text x="512.0" y="256.0" fill="#525b69" text-anchor="middle">2k</text>
<line x1="602.7" y1="238.0" x2="602.7" y2="243.0" stroke="#d8d2c3"/>
<text x="602.7" y="256.0" fill="#525b69" text-anchor="middle">5k</text>
<line x1="671.4" y1="238.0" x2="671.4" y2="243.0" stroke="#d8d2c3"/>
<text x="671.4" y="256.0" fill="#525b69" text-anchor="middle">10k</text>
<line x1="740.0" y1="238.0" x2="740.0" y2="243.0" stroke="#d8d2c3"/>
<text x="740.0" y="256.0" fill="#525b69" text-anchor="middle">20k</text>
<line x1="56.0" y1="238.0" x2="740.0" y2="238.0" stroke="#d8d2c3"/>
<text x="56.0" y="38.0" fill="#525b69">level, dB</text>
<text x="740.0" y="274.0" fill="#525b69" text-anchor="end">frequency, Hz</text>
<path d="M56.0,212.0L284.0,173.8L740.0,135.6" fill="none" stroke="#1d3c66" stroke-width="1.6"/>
<path d="M56.0,224.8L284.0,161.1L740.0,148.4" fill="none" stroke="#b4261f" stroke-width="1.6" stroke-dasharray="6 4"/>
</g>
<g transform="translate(0 280)">
<text x="56" y="16" fill="#1b2330" font-weight="bold" font-size="13">Tracking error over the side, band 3</text>
<text x="740.0" y="16.0" fill="#525b69" text-anchor="end">heard · A &amp; &quot;B&quot; &lt;C&gt;</text>
<line x1="56.0" y1="224.8" x2="740.0" y2="224.8" stroke="#d8d2c3"/>
<text x="49.0" y="228.8" fill="#525b69" text-anchor="end">−0.8</text>
<line x1="56.0" y1="191.7" x2="740.0" y2="191.7" stroke="#d8d2c3"/>
<text x="49.0" y="195.7" fill="#525b69" text-anchor="end">−0.6</text>
<line x1="56.0" y1="158.6" x2="740.0" y2="158.6" stroke="#d8d2c3"/>
<text x="49.0" y="162.6" fill="#525b69" text-anchor="end">−0.4</text>
<line x1="56.0" y1="125.4" x2="740.0" y2="125.4" stroke="#d8d2c3"/>
<text x="49.0" y="129.4" fill="#525b69" text-anchor="end">−0.2</text>
<line x1="56.0" y1="92.3" x2="740.0" y2="92.3" stroke="#d8d2c3"/>
<text x="49.0" y="96.3" fill="#525b69" text-anchor="end">0</text>
<line x1="56.0" y1="59.2" x2="740.0" y2="59.2" stroke="#d8d2c3"/>
<text x="49.0" y="63.2" fill="#525b69" text-anchor="end">0.2</text>
<line x1="104.9" y1="238.0" x2="104.9" y2="243.0" stroke="#d8d2c3"/>
<text x="104.9" y="256.0" fill="#525b69" text-anchor="middle">65</text>
<line x1="186.3" y1="238.0" x2="186.3" y2="243.0" stroke="#d8d2c3"/>
<text x="186.3" y="256.0" fill="#525b69" text-anchor="middle">70</text>
<line x1="267.7" y1="238.0" x2="267.7" y2="243.0" stroke="#d8d2c3"/>
<text x="267.7" y="256.0" fill="#525b69" text-anchor="middle">75</text>
<line x1="349.1" y1="238.0" x2="349.1" y2="243.0" stroke="#d8d2c3"/>
<text x="349.1" y="256.0" fill="#525b69" text-anchor="middle">80</text>
<line x1="430.6" y1="238.0" x2="430.6" y2="243.0" stroke="#d8d2c3"/>
<text x="430.6" y="256.0" fill="#525b69" text-anchor="middle">85</text>
<line x1="512.0" y1="238.0" x2="512.0" y2="243.0" stroke="#d8d2c3"/>
<text x="512.0" y="256.0" fill="#525b69" text-anchor="middle">90</text>
<line x1="593.4" y1="238.0" x2="593.4" y2="243.0" stroke="#d8d2c3"/>
<text x="593.4" y="256.0" fill="#525b69" text-anchor="middle">95</text>
<line x1="674.9" y1="238.0" x2="674.9" y2="243.0" stroke="#d8d2c3"/>
<text x="674.9" y="256.0" fill="#525b69" text-anchor="middle">100</text>
<line x1="56.0" y1="238.0" x2="740.0" y2="238.0" stroke="#d8d2c3"/>
<text x="56.0" y="38.0" fill="#525b69">angle, °</text>
<text x="740.0" y="274.0" fill="#525b69" text-anchor="end">radius, mm</text>
<path d="M56.0,75.8h0M740.0,224.8h0" fill="none" stroke="#1b2330" stroke-width="5" stroke-linecap="round"/>
<path d="M56.0,59.2L740.0,191.7" fill="none" stroke="#525b69" stroke-width="1.6" stroke-dasharray="2 3"/>
</g>
<g transform="translate(0 560)">
<text x="56" y="16" fill="#1b2330" font-weight="bold" font-size="13">Speed around the platter</text>
<text x="740.0" y="16.0" fill="#525b69" text-anchor="end">speed around the platter</text>
<text x="56.0" y="38.0" fill="#525b69">deviation, 0° up, clockwise, %</text>
<g transform="translate(380 183)">
<circle r="62.1" fill="none" stroke="#d8d2c3"/>
<text x="0.0" y="-65.1" fill="#525b69" text-anchor="middle">−0.1</text>
<circle r="84.9" fill="none" stroke="#d8d2c3"/>
<text x="0.0" y="-87.9" fill="#525b69" text-anchor="middle">0</text>
<circle r="107.8" fill="none" stroke="#d8d2c3"/>
<text x="0.0" y="-110.8" fill="#525b69" text-anchor="middle">0.1</text>
<path d="M0.0,-107.8L84.9,-0.0L0.0,62.1L-84.9,0.0L-0.0,-130.6L84.9,-0.0" fill="none" stroke="#525b69" stroke-width="0.7"/>
<path d="M10.4,-118.7L84.6,7.4L-5.4,61.9L-84.6,-7.4" fill="none" stroke="#1b2330" stroke-width="1.6"/>
</g>
</g>
<g transform="translate(0 880)">
<text x="56" y="16" fill="#1b2330" font-weight="bold" font-size="13">Spectrum, band 1</text>
<text x="740.0" y="16.0" fill="#525b69" text-anchor="end">spectrum</text>
<line x1="56.0" y1="238.0" x2="740.0" y2="238.0" stroke="#d8d2c3"/>
<text x="49.0" y="242.0" fill="#525b69" text-anchor="end">0.9</text>
<line x1="56.0" y1="190.0" x2="740.0" y2="190.0" stroke="#d8d2c3"/>
<text x="49.0" y="194.0" fill="#525b69" text-anchor="end">0.95</text>
<line x1="56.0" y1="142.0" x2="740.0" y2="142.0" stroke="#d8d2c3"/>
<text x="49.0" y="146.0" fill="#525b69" text-anchor="end">1</text>
<line x1="56.0" y1="94.0" x2="740.0" y2="94.0" stroke="#d8d2c3"/>
<text x="49.0" y="98.0" fill="#525b69" text-anchor="end">1.05</text>
<line x1="56.0" y1="46.0" x2="740.0" y2="46.0" stroke="#d8d2c3"/>
<text x="49.0" y="50.0" fill="#525b69" text-anchor="end">1.1</text>
<line x1="56.0" y1="238.0" x2="56.0" y2="243.0" stroke="#d8d2c3"/>
<text x="56.0" y="256.0" fill="#525b69" text-anchor="middle">45</text>
<line x1="124.4" y1="238.0" x2="124.4" y2="243.0" stroke="#d8d2c3"/>
<text x="124.4" y="256.0" fill="#525b69" text-anchor="middle">46</text>
<line x1="192.8" y1="238.0" x2="192.8" y2="243.0" stroke="#d8d2c3"/>
<text x="192.8" y="256.0" fill="#525b69" text-anchor="middle">47</text>
<line x1="261.2" y1="238.0" x2="261.2" y2="243.0" stroke="#d8d2c3"/>
<text x="261.2" y="256.0" fill="#525b69" text-anchor="middle">48</text>
<line x1="329.6" y1="238.0" x2="329.6" y2="243.0" stroke="#d8d2c3"/>
<text x="329.6" y="256.0" fill="#525b69" text-anchor="middle">49</text>
<line x1="398.0" y1="238.0" x2="398.0" y2="243.0" stroke="#d8d2c3"/>
<text x="398.0" y="256.0" fill="#525b69" text-anchor="middle">50</text>
<line x1="466.4" y1="238.0" x2="466.4" y2="243.0" stroke="#d8d2c3"/>
<text x="466.4" y="256.0" fill="#525b69" text-anchor="middle">51</text>
<line x1="534.8" y1="238.0" x2="534.8" y2="243.0" stroke="#d8d2c3"/>
<text x="534.8" y="256.0" fill="#525b69" text-anchor="middle">52</text>
<line x1="603.2" y1="238.0" x2="603.2" y2="243.0" stroke="#d8d2c3"/>
<text x="603.2" y="256.0" fill="#525b69" text-anchor="middle">53</text>
<line x1="671.6" y1="238.0" x2="671.6" y2="243.0" stroke="#d8d2c3"/>
<text x="671.6" y="256.0" fill="#525b69" text-anchor="middle">54</text>
<line x1="740.0" y1="238.0" x2="740.0" y2="243.0" stroke="#d8d2c3"/>
<text x="740.0" y="256.0" fill="#525b69" text-anchor="middle">55</text>
<line x1="56.0" y1="238.0" x2="740.0" y2="238.0" stroke="#d8d2c3"/>
<text x="56.0" y="38.0" fill="#525b69"></text>
<text x="740.0" y="274.0" fill="#525b69" text-anchor="end">V</text>
<path d="M398.0,142.0L398.0,142.0" fill="none" stroke="#1b2330" stroke-width="1.6"/>
</g>
</svg>
`;

export const pictureOfNothing = `
<svg xmlns="http://www.w3.org/2000/svg" width="760" height="280" viewBox="0 0 760 280" font-family="sans-serif" font-size="12" role="img">
<title>Curves</title>
<rect width="100%" height="100%" fill="#ffffff"/>
</svg>
`;
