/** The bench page turns the second screen on and off, shows it the figure, and watches it. */
import { Hono } from 'hono';
import { secondFigureSchema, secondOnSchema } from '../core/job/api.ts';
import { bodyOf } from './requestBody.ts';
import type { SecondScreen } from './secondScreen/secondScreen.ts';

export function secondScreenRoutes(screen: SecondScreen): Hono {
  const routes = new Hono();
  // a stream: it is on for as long as somebody reads this
  routes.get('/second-screen', () => screen.watch());
  routes.post('/second-screen', async (c) =>
    c.json(await screen.turnOn((await bodyOf(c.req, secondOnSchema)).address)),
  );
  routes.delete('/second-screen', async (c) => {
    await screen.turnOff();
    return c.body(null, 204);
  });
  routes.post('/second-screen/code', (c) => {
    screen.renewCode();
    return c.body(null, 204);
  });
  routes.put('/second-screen/figure', async (c) => {
    screen.show(await bodyOf(c.req, secondFigureSchema));
    return c.body(null, 204);
  });
  return routes;
}
