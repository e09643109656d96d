package cardproof.sim;

import cardproof.link.Result;

/** What a fixture sends of its own accord. */
interface Reports {
  void result(Result result);

  void status();
}
