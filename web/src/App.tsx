import { LocationProvider, Route, Router } from 'preact-iso';
import type { Firm } from '../../src/contract/index.ts';
import { useHeld } from './api/held.ts';
import { FIRM } from './api/paths.ts';
import { laterScreen } from './parts/LaterScreen.tsx';
import { Mishap } from './parts/Mishap.tsx';
import { ClockScreen } from './screens/ClockScreen.tsx';
import { DayScreen } from './screens/DayScreen.tsx';
import { JobScreen } from './screens/JobScreen.tsx';
import { JobsScreen } from './screens/JobsScreen.tsx';
import { NotFoundScreen } from './screens/NotFoundScreen.tsx';

const RoofScreen = laterScreen(
  'Roof',
  async () => (await import('./screens/RoofScreen.tsx')).RoofScreen,
);
const ProductsScreen = laterScreen(
  'Products',
  async () => (await import('./screens/ProductsScreen.tsx')).ProductsScreen,
);
const ProductScreen = laterScreen(
  'Product',
  async () => (await import('./screens/ProductScreen.tsx')).ProductScreen,
);
const OwnProductScreen = laterScreen(
  'A product of your own',
  async () => (await import('./screens/OwnProductScreen.tsx')).OwnProductScreen,
);

function Masthead() {
  const firm = useHeld<Firm>(FIRM).data;
  return (
    <header class="masthead">
      <a class="skip" href="#content">
        Skip to the page
      </a>
      <nav aria-label="Layfair">
        <a class="wordmark" href="/">
          Layfair
        </a>
        <a href="/">Jobs</a>
        <a href="/clock">Clock</a>
        <a href="/products">Products</a>
        {firm && <span class="firm-name">{firm.name}</span>}
      </nav>
    </header>
  );
}

function Banner() {
  const firm = useHeld<Firm>(FIRM).data;
  return firm?.banner ? (
    <aside class="banner" aria-label="Demo">
      {firm.banner}
    </aside>
  ) : null;
}

export function App() {
  return (
    <LocationProvider>
      <Banner />
      <Masthead />
      <Mishap>
        <Router>
          <Route path="/" component={JobsScreen} />
          <Route path="/job/:id" component={JobScreen} />
          <Route path="/job/:id/day/:date" component={DayScreen} />
          <Route path="/job/:id/roof" component={RoofScreen} />
          <Route path="/clock" component={ClockScreen} />
          <Route path="/products" component={ProductsScreen} />
          <Route path="/products/new" component={OwnProductScreen} />
          <Route path="/product/:id" component={ProductScreen} />
          <Route path="/product/:id/change" component={OwnProductScreen} />
          <Route default component={NotFoundScreen} />
        </Router>
      </Mishap>
      <footer class="foot">
        <p>
          Layfair advises. It shows what the forecast and the data sheets say; the product’s data
          sheet, the designer, local codes and licensed practice come first.
        </p>
      </footer>
    </LocationProvider>
  );
}
